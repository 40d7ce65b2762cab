-- +goose Up
-- A new id is looked for among those that differ only in their capitals.
CREATE INDEX entry_like_id ON entry (shop, kind, lower(id));
