-- +goose Up
-- One schema for SQLite and PostgreSQL. The shop stands first in every key, so that no
-- row can belong to a row of another shop.

CREATE TABLE shop (
    shop     TEXT   NOT NULL PRIMARY KEY CHECK (length(shop) BETWEEN 1 AND 64),
    sequence BIGINT NOT NULL CHECK (sequence >= 0),
    entries  BIGINT NOT NULL CHECK (entries >= 0)
);

-- Every version of everything. Rows are added and never changed.
CREATE TABLE history (
    shop     TEXT   NOT NULL REFERENCES shop (shop),
    kind     TEXT   NOT NULL CHECK (kind IN ('billet', 'reading', 'stay', 'event', 'place', 'piece', 'plan', 'target', 'note')),
    id       TEXT   NOT NULL CHECK (length(id) BETWEEN 1 AND 64),
    version  BIGINT NOT NULL CHECK (version >= 1),
    sequence BIGINT NOT NULL CHECK (sequence >= 1),
    restores BIGINT NOT NULL CHECK (restores >= -1 AND restores < version),
    gone     BIGINT NOT NULL CHECK (gone IN (0, 1)),
    of_kind  TEXT,
    of_id    TEXT,
    form     TEXT   NOT NULL,
    day      TEXT   NOT NULL,
    place    TEXT   NOT NULL,
    label    TEXT   NOT NULL,
    body     TEXT   NOT NULL CHECK (length(body) BETWEEN 1 AND 262144),
    made_at  BIGINT NOT NULL,
    author   TEXT   NOT NULL CHECK (length(author) <= 64),
    PRIMARY KEY (shop, kind, id, version),
    UNIQUE (shop, sequence),
    CHECK ((of_kind IS NULL) = (of_id IS NULL))
);

-- The current version of each entry, with what lists are filtered and ordered by.
CREATE TABLE entry (
    shop    TEXT   NOT NULL,
    kind    TEXT   NOT NULL,
    id      TEXT   NOT NULL,
    version BIGINT NOT NULL,
    gone    BIGINT NOT NULL,
    of_kind TEXT,
    of_id   TEXT,
    form    TEXT   NOT NULL,
    day     TEXT   NOT NULL,
    place   TEXT   NOT NULL,
    sought  TEXT   NOT NULL, -- id and label in small letters
    PRIMARY KEY (shop, kind, id),
    FOREIGN KEY (shop, kind, id, version) REFERENCES history (shop, kind, id, version),
    FOREIGN KEY (shop, of_kind, of_id) REFERENCES entry (shop, kind, id)
);

CREATE INDEX entry_of ON entry (shop, of_kind, of_id, kind, day);
CREATE INDEX entry_day ON entry (shop, kind, gone, day, id);

-- Orders that were carried out under a key, with the versions they made: from them the
-- answer is given again.
CREATE TABLE done (
    shop      TEXT   NOT NULL REFERENCES shop (shop),
    order_key TEXT   NOT NULL CHECK (length(order_key) BETWEEN 1 AND 64),
    digest    TEXT   NOT NULL CHECK (length(digest) = 64),
    first_seq BIGINT NOT NULL,
    last_seq  BIGINT NOT NULL CHECK (last_seq >= first_seq),
    PRIMARY KEY (shop, order_key)
);
