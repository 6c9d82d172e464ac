-- +goose Up
-- Entries in blocks of 4096 consecutive ids, once a block is full: what the
-- words table can't answer quickly where it holds a million entries. The
-- program fills these tables from the entries.

-- When a room's entries of a block were made.
CREATE TABLE blocks (
    room  BIGINT NOT NULL,
    block BIGINT NOT NULL,
    first BIGINT NOT NULL,
    last  BIGINT NOT NULL,
    PRIMARY KEY (room, block)
);

-- Which of a room's entries in a block have a word, for words that many of them
-- have: one bit for each id.
CREATE TABLE common (
    room  BIGINT NOT NULL,
    word  TEXT NOT NULL,
    block BIGINT NOT NULL,
    bits  BYTEA NOT NULL,
    PRIMARY KEY (room, word, block)
);

-- One row: the first block that is not in these tables.
CREATE TABLE next_block (
    id    BIGINT PRIMARY KEY CHECK (id = 1),
    block BIGINT NOT NULL
);
INSERT INTO next_block (id, block) VALUES (1, 0);
