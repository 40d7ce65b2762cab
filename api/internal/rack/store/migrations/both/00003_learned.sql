-- +goose Up
-- What was found out about an entry from all that is kept, until something of that changes.
-- It can be found out again, so that it is neither history nor part of an export.
CREATE TABLE learned (
    shop   TEXT NOT NULL,
    kind   TEXT NOT NULL,
    id     TEXT NOT NULL,
    basis  TEXT NOT NULL CHECK (length(basis) = 64),
    answer TEXT NOT NULL CHECK (length(answer) BETWEEN 1 AND 262144),
    PRIMARY KEY (shop, kind, id),
    FOREIGN KEY (shop, kind, id) REFERENCES entry (shop, kind, id)
);
