-- +goose Up
-- SQLite and PostgreSQL have no common form of a trigger: this file and its neighbour of
-- the same name say the same.

-- +goose StatementBegin
CREATE TRIGGER history_never_changes BEFORE UPDATE ON history
BEGIN
    SELECT RAISE(ABORT, 'history is only added to');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER history_is_never_deleted BEFORE DELETE ON history
BEGIN
    SELECT RAISE(ABORT, 'history is only added to');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER entry_is_never_deleted BEFORE DELETE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is marked as gone, and stays');
END;
-- +goose StatementEnd
