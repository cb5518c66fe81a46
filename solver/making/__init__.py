"""Jam and box files made by questions: what is asked, what may be answered, and the file that comes of it.

Nothing here knows how a question is put to anybody, and nothing here opens or writes a file.
"""
