-- +goose Up
-- Outlines that makers traced. The id is made of the outline, so that it never
-- means another; name is what its maker keeps it under, empty until then.
CREATE TABLE outlines (
    platform TEXT NOT NULL,
    maker    TEXT NOT NULL,
    id       TEXT NOT NULL,
    name     TEXT NOT NULL,
    traced   TEXT NOT NULL,
    at       INTEGER NOT NULL,
    PRIMARY KEY (platform, maker, id)
) STRICT, WITHOUT ROWID;
