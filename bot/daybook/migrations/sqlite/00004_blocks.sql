-- +goose Up
-- Entries in blocks of 4096 consecutive ids, once a block is full: what the
-- words table can't answer quickly where it holds a million entries. The
-- program fills these tables from the entries.

-- When a room's entries of a block were made.
CREATE TABLE blocks (
    room  INTEGER NOT NULL,
    block INTEGER NOT NULL,
    first INTEGER NOT NULL,
    last  INTEGER NOT NULL,
    PRIMARY KEY (room, block)
) STRICT, WITHOUT ROWID;

-- Which of a room's entries in a block have a word, for words that many of them
-- have: one bit for each id.
CREATE TABLE common (
    room  INTEGER NOT NULL,
    word  TEXT NOT NULL,
    block INTEGER NOT NULL,
    bits  BLOB NOT NULL,
    PRIMARY KEY (room, word, block)
) STRICT, WITHOUT ROWID;

-- One row: the first block that is not in these tables.
CREATE TABLE next_block (
    id    INTEGER PRIMARY KEY CHECK (id = 1),
    block INTEGER NOT NULL
) STRICT;
INSERT INTO next_block (id, block) VALUES (1, 0);
