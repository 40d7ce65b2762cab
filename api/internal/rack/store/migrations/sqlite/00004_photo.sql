-- +goose Up
-- Every photo that a piece of wood ever had. One that was taken off is a version without
-- bytes. SQLite and PostgreSQL call bytes, and make triggers, in their own ways: this file and
-- its neighbour of the same name say the same.
CREATE TABLE photo (
    shop    TEXT   NOT NULL,
    kind    TEXT   NOT NULL,
    id      TEXT   NOT NULL,
    version BIGINT NOT NULL CHECK (version >= 1),
    media   TEXT   NOT NULL CHECK (length(media) <= 64),
    digest  TEXT   NOT NULL CHECK (length(digest) IN (0, 64)),
    size    BIGINT NOT NULL CHECK (size BETWEEN 0 AND 16777216),
    made_at BIGINT NOT NULL,
    author  TEXT   NOT NULL CHECK (length(author) <= 64),
    body    BLOB   NOT NULL,
    PRIMARY KEY (shop, kind, id, version),
    FOREIGN KEY (shop, kind, id) REFERENCES entry (shop, kind, id),
    CHECK (length(body) = size)
);

-- +goose StatementBegin
CREATE TRIGGER photo_never_changes BEFORE UPDATE ON photo
BEGIN
    SELECT RAISE(ABORT, 'photos are only added to');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER photo_is_never_deleted BEFORE DELETE ON photo
BEGIN
    SELECT RAISE(ABORT, 'photos are only added to');
END;
-- +goose StatementEnd
