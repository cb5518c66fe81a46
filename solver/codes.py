"""Every kind of message, with what causes it and what cures it. A code never changes its meaning.

A code is a kind of mistake, not a sentence: each message says in its own words what is wrong where. F is about a file
as a whole, V about keys and values, N about names, C about options of a command, W about files that are written, B
doubts a box file, and X is about hardpan itself. Rules that a plan breaks have the ids of ``solver.rules``, with
other letters.
"""

from enum import StrEnum


class Code(StrEnum):
    """The kinds of message. As a text, and in JSON, each is its code alone."""

    cause: str
    cure: str

    def __new__(cls, code: str, cause: str, cure: str) -> "Code":
        """A code with its cause and cure."""
        made = str.__new__(cls, code)
        made._value_ = code
        made.cause = cause
        made.cure = cure
        return made

    NO_FILE = (
        "F01",
        "There is no file or folder of that name.",
        "Look at the spelling and at the folder you are in. A path that stands in a file is relative to that file.",
    )
    UNOPENED = (
        "F02",
        "What has that name cannot be opened as a file: it is a folder or a device, or may not be read.",
        "Name a file in the folder, or allow it to be read.",
    )
    TOO_LARGE = (
        "F03",
        "The file, or something in it, is larger or deeper than any such file needs.",
        "It is mostly another file than you meant. A box or jam file has at most 1 MB, a plan file 16 MB.",
    )
    NOT_UTF8 = (
        "F04",
        "The file is no text in UTF-8.",
        "Save it as UTF-8 in your editor. Pictures, sounds and word processor files are none.",
    )
    BROKEN = (
        "F05",
        "The text is no TOML, or no JSON, from that place on.",
        "Look at that line and the one above it: a quote, a bracket, a comma or an = is missing or too many.",
    )
    WRITTEN_TWICE = (
        "F06",
        "A key or a table stands in the file twice.",
        "Put both into one, or leave one out. Lists of tables have double brackets: [[intent]].",
    )
    OTHER_KIND = (
        "F07",
        "The file is of another kind: a box, a jam, a set, or a plan of another kind.",
        "Name the file that is meant, or take the command that reads this kind.",
    )
    CARRIES_NOTHING = (
        "F08",
        "The plan does not carry the jam or the set that it is for, because it was written by hand or long ago.",
        "Name its jam with --jam, or export the jam file itself.",
    )
    LAYOUT = (
        "F09",
        "The way the file is laid out does not let the change be made without touching the rest of it.",
        "Make the change by hand, or write the table in a plainer way first.",
    )
    TOO_MANY = (
        "F10",
        "So much is wrong that only the first of it is listed.",
        "Mend the first ones: what follows from them goes with them. Or it is another file than you meant.",
    )

    UNKNOWN_KEY = (
        "V01",
        "The table has no such key.",
        "Take one of those that are listed.",
    )
    MISSING = ("V02", "A key that is needed is not there.", "Add it, with what the message allows.")
    WRONG_TYPE = (
        "V03",
        "A value is of another kind than its key takes, such as a text where a number belongs.",
        "Write it as the message says: texts in quotes, numbers without, lists in [ ], tables in { }.",
    )
    WRONG_WORD = (
        "V04",
        "A text is none of those that its key takes.",
        "Take one of those that are listed; capital and small letters count.",
    )
    OUT_OF_RANGE = (
        "V05",
        "A number is too small or too large, or a text or a list too short or too long.",
        "Stay within what the message allows.",
    )
    WRONG_NAME = (
        "V06",
        "A thing cannot be called so: the name has another meaning there, or a sign that no name may have.",
        "Choose one of those that are listed, or another name.",
    )
    NEEDS_MORE = (
        "V07",
        "A key does not stand alone: something that belongs to it is not there.",
        "Add what the message names, or leave the key out.",
    )
    OUT_OF_PLACE = (
        "V08",
        "A key or a value does not go with what else is said of this thing.",
        "Leave it out, or change what the message says it goes with.",
    )
    ONE_KIND = (
        "V09",
        "Of several keys exactly one has to be there, and there is none, or more than one.",
        "Keep one. Two wishes are two [[intent]] tables.",
    )
    OUT_OF_REACH = (
        "V10",
        "A thing is said to stand on a channel that it cannot be set to.",
        "Correct where it stands, or the channels that it can be set to.",
    )

    UNKNOWN_NAME = (
        "N01",
        "A name stands for nothing: no box, part, engine, jack or the like is called so here.",
        "Take one of those that are listed. What belongs to a box has its box before it: barge/MAIN.",
    )
    NAME_TAKEN = ("N02", "Two things of one kind have the same name in a box.", "Rename one of them.")
    JACK_TAKEN = (
        "N03",
        "Two jacks of a box have the same label.",
        "Name each as it is printed; where the print is the same, add a word, such as the side or the row.",
    )
    NAMED_TWICE = ("N04", "Something is named twice where once is enough.", "Leave one out.")
    IN_CIRCLE = (
        "N05",
        "Outlets carry the same as each other, in a circle, so none of them has a sound of its own.",
        "Leave out mirrors at the one that the sounds go to.",
    )
    TWO_BOXES = (
        "N06",
        "In one set, a name stands for one box in one jam and for another in the next.",
        "Give one of them another name in its jam, or name the same file in both.",
    )
    SLOT_TAKEN = (
        "N07",
        "Two jams of a set are saved in one slot of a box, so the later one would replace the first.",
        "Save one of them elsewhere, and say where under [recall].",
    )

    OPTION_SHAPE = (
        "C01",
        "What is given to an option does not have the form that it takes.",
        "Write it as in the example of the message. Where the shell eats quotes, put single ones around the whole.",
    )
    THERE_ALREADY = ("C02", "What is to be added is there already.", "Change it with --set, or add it by another name.")
    STAYS = (
        "C03",
        "That cannot be left out or changed in this way, for the rest of the file hangs on it.",
        "Take the option that the message names, or change the file by hand.",
    )
    CLASH = ("C04", "Two of the changes do not go together, or are the same.", "Ask for one of them.")
    NOT_FOR_FILE = (
        "C05",
        "An option is for another kind of file, or one that this kind of file needs is not there.",
        "Sets take --in with one of their jams; jams do without it.",
    )

    FILE_THERE = (
        "W01",
        "The file is there already, and is not replaced without being asked to.",
        "Choose another name, or say --force if you mean it.",
    )
    WOULD_BE_LOST = (
        "W02",
        "Something that hardpan did not make, or that it was made from, stands in that place and would be lost.",
        "Choose another name.",
    )
    NO_PLACE = (
        "W03",
        "The file cannot be written there: its folder is missing, or may not be written, or the system refuses.",
        "Make the folder, allow writing to it, or choose another place. What stood there before is untouched.",
    )
    WRONG_ENDING = (
        "W04",
        "The ending of the name says what a file is, and it says nothing that can be made here.",
        "Take one of the endings that are listed.",
    )

    DOUBTED_LABEL = (
        "B01",
        "The label of a jack says something else than the file, or differs from another one by capital letters only.",
        "Look at the jack: mono or stereo, thick or thin, and how it is printed.",
    )
    DOUBTED_ALONE = (
        "B02",
        "A left jack says MONO, and its plug alone has one side in the file; or it does not say so, and has both.",
        'Plug it alone and listen. An outlet that carries both sides then has alone = "sum", an inlet "copy".',
    )
    DOUBTED_OUTLET = (
        "B03",
        "Nothing goes to an outlet, or something goes to none.",
        "Name the outlet in the to of what goes there, or say what it mirrors.",
    )
    DOUBTED_KEY = ("B04", "Ducking is offered, and nothing can trigger it.", "Name the engines that can under key.")
    DOUBTED_PLAYER = (
        "B05",
        "No track of the box plays an engine; or nobody can, where no MIDI comes in or it has no channel either.",
        "Say which engine a track plays; or add the MIDI socket or the channels.",
    )
    DOUBTED_CHANNEL = (
        "B06",
        "Several engines stand on one channel and sound together, or one that is no drum stands on 10.",
        "Look where they stand. Some boxes come like that; then leave it.",
    )
    DOUBTED_VOICES = ("B07", "The box has fewer voices than engines.", "Look it up in the manual; it may well be so.")
    DOUBTED_TRACK = (
        "B08",
        "A track has channels to send on, and the box has no MIDI out.",
        "Add the socket, or say channels = [] of a track that only plays inside.",
    )
    DOUBTED_PLUG = (
        "B09",
        "A MIDI socket has a plug in its name, and the file says another.",
        "Look at the socket, and correct the plug.",
    )
    DOUBTED_CLOCK = (
        "B10",
        "Clock does not come in at a socket, or is lost on its way through the box.",
        "Look in the menu of the box for sync; where clock passes, say clock = true at each socket on the way.",
    )

    WRONG_PLAN = (
        "X01",
        "hardpan found a plan and its own check refused it, so it is not shown. The mistake is hardpan's.",
        "Send its makers the lines, the jam and its boxes. Another wish or box may lead around it until then.",
    )
    OWN_MISTAKE = (
        "X02",
        "hardpan came to something that nobody has thought of. The mistake is hardpan's.",
        "Send its makers the lines, and the files that you gave it.",
    )
    UNDECIDED = (
        "X03",
        "The time was up, or you stopped it, before there was a plan or a proof that there is none.",
        "Give it more time: --time-limit 600 is ten minutes.",
    )
