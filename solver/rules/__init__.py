"""The rules of the table: one file a family, each rule with its sentence, its constraint and its judgement."""
