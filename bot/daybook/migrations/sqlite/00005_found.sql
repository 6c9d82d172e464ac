-- +goose Up
-- The search index: the words of each entry and the word of its room. Words are
-- separated by line breaks, so every other character is part of a word.
-- +goose StatementBegin
CREATE VIRTUAL TABLE found USING fts5 (
    words,
    content = '', contentless_delete = 1, detail = none,
    tokenize = "ascii tokenchars ' !""#$%&''()*+,-./:;<=>?@[\]^_`{|}~'"
);
-- +goose StatementEnd
INSERT INTO found (rowid, words) SELECT id, 'room=' || room || char(10) || words FROM entries;

-- +goose StatementBegin
CREATE TRIGGER entries_added AFTER INSERT ON entries BEGIN
    INSERT INTO found (rowid, words) VALUES (new.id, 'room=' || new.room || char(10) || new.words);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER entries_removed AFTER DELETE ON entries BEGIN
    DELETE FROM found WHERE rowid = old.id;
END;
-- +goose StatementEnd

-- Finds a room's first and last entry of a day, in microseconds.
CREATE INDEX entries_day ON entries (room, at / 86400000000, id);

DROP INDEX entries_guild;
DROP TABLE words;
DROP TABLE blocks;
DROP TABLE common;
DROP TABLE next_block;
