-- +goose Up
-- SQLite and PostgreSQL have no common form of a trigger: this file and its neighbour of
-- the same name say the same. Order by id is that of the bytes in both: SQLite compares
-- so, PostgreSQL by the locale unless it is told.

-- +goose StatementBegin
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION 'history is only added to, and entries stay';
END;
$$;
-- +goose StatementEnd

CREATE TRIGGER history_never_changes BEFORE UPDATE OR DELETE OR TRUNCATE ON history
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER entry_is_never_deleted BEFORE DELETE OR TRUNCATE ON entry
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE history ALTER COLUMN id TYPE TEXT COLLATE "C";
ALTER TABLE entry ALTER COLUMN id TYPE TEXT COLLATE "C";
ALTER TABLE entry ALTER COLUMN of_id TYPE TEXT COLLATE "C";
ALTER TABLE entry ALTER COLUMN day TYPE TEXT COLLATE "C";
ALTER TABLE done ALTER COLUMN order_key TYPE TEXT COLLATE "C";
