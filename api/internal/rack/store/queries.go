package store

// The statements, in the SQL that SQLite and PostgreSQL share. Each parameter stands for
// the first time in the order of its number, since SQLite counts them so.
const (
	beginShop = `INSERT INTO shop (shop, sequence, entries) VALUES ($1, 0, 0) ON CONFLICT (shop) DO NOTHING`

	// takeTurn waits for its turn among the writers of the shop: all that follows in the
	// transaction sees what those before it did.
	takeTurn = `UPDATE shop SET sequence = sequence + $1 WHERE shop = $2 RETURNING sequence, entries`

	countNew = `UPDATE shop SET entries = entries + $1 WHERE shop = $2`

	readShop = `SELECT sequence, entries FROM shop WHERE shop = $1`

	readDone = `SELECT digest, first_seq, last_seq FROM done WHERE shop = $1 AND order_key = $2`
	addDone  = `INSERT INTO done (shop, order_key, digest, first_seq, last_seq) VALUES ($1, $2, $3, $4, $5)`
	listDone = `SELECT order_key, digest, first_seq, last_seq FROM done WHERE shop = $1 ORDER BY order_key`

	learn = `INSERT INTO learned (shop, kind, id, basis, answer) VALUES ($1, $2, $3, $4, $5)
ON CONFLICT (shop, kind, id) DO UPDATE SET basis = excluded.basis, answer = excluded.answer`
	listLearned = `SELECT kind, id, basis, answer FROM learned WHERE shop = $1`

	photoOf    = `p.kind, p.id, p.version, p.media, p.digest, p.size, p.made_at, p.author`
	readPhoto  = `SELECT ` + photoOf + `, p.body FROM photo p WHERE p.shop = $1 AND p.kind = $2 AND p.id = $3 ORDER BY p.version DESC LIMIT 1`
	allPhotos  = `SELECT ` + photoOf + `, p.body FROM photo p WHERE p.shop = $1 ORDER BY p.kind, p.id, p.version`
	listPhotos = `SELECT ` + photoOf + `, NULL FROM photo p WHERE p.shop = $1 AND p.digest <> '' AND NOT EXISTS
(SELECT 1 FROM photo l WHERE l.shop = p.shop AND l.kind = p.kind AND l.id = p.id AND l.version > p.version)`
	sumPhotos = `SELECT coalesce(sum(size), 0) FROM photo WHERE shop = $1`
	addPhoto  = `INSERT INTO photo (shop, kind, id, version, media, digest, size, made_at, author, body)
VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`

	columns = `h.kind, h.id, h.version, h.sequence, h.restores, h.gone, h.of_kind, h.of_id, h.form, h.day, h.place, h.label, h.body, h.made_at, h.author`

	readEntry = `SELECT ` + columns + ` FROM entry e
JOIN history h ON h.shop = e.shop AND h.kind = e.kind AND h.id = e.id AND h.version = e.version
WHERE e.shop = $1 AND e.kind = $2 AND e.id = $3`

	readVersion = `SELECT ` + columns + ` FROM history h WHERE h.shop = $1 AND h.kind = $2 AND h.id = $3 AND h.version = $4`

	readHistory = `SELECT ` + columns + ` FROM history h WHERE h.shop = $1 AND h.kind = $2 AND h.id = $3 ORDER BY h.version`

	readSince = `SELECT ` + columns + ` FROM history h WHERE h.shop = $1 AND h.sequence > $2 ORDER BY h.sequence LIMIT $3`

	isThere = `SELECT gone FROM entry WHERE shop = $1 AND kind = $2 AND id = $3`

	readLike = `SELECT id FROM entry WHERE shop = $1 AND kind = $2 AND lower(id) = lower($3) ORDER BY id LIMIT 1`

	filters = `e.shop = $1 AND e.kind = $2 AND e.gone = $3
AND ($4 = '' OR e.of_kind = $4 AND e.of_id = $5)
AND ($6 = '' OR e.form = $6)
AND ($7 = '' OR e.place = $7)
AND ($8 = '' OR e.day >= $8)
AND ($9 = '' OR e.day <> '' AND e.day <= $9)
AND e.sought LIKE $10 ESCAPE '\'`

	countEntries = `SELECT count(*) FROM entry e WHERE ` + filters

	listEntries = `SELECT ` + columns + ` FROM entry e
JOIN history h ON h.shop = e.shop AND h.kind = e.kind AND h.id = e.id AND h.version = e.version
WHERE ` + filters + ` ORDER BY e.day, e.id LIMIT $11 OFFSET $12`

	addVersion = `INSERT INTO history
(shop, kind, id, version, sequence, restores, gone, of_kind, of_id, form, day, place, label, body, made_at, author)
VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16)`

	setEntry = `INSERT INTO entry (shop, kind, id, version, gone, of_kind, of_id, form, day, place, sought)
VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)
ON CONFLICT (shop, kind, id) DO UPDATE SET version = excluded.version, gone = excluded.gone, of_kind = excluded.of_kind,
of_id = excluded.of_id, form = excluded.form, day = excluded.day, place = excluded.place, sought = excluded.sought`
)

// What cannot be right, whatever was asked: each statement finds none.
var contradictions = []struct{ what, query string }{
	{"an entry whose current version is not its last", `SELECT count(*) FROM entry e WHERE e.shop = $1 AND e.version <>
(SELECT max(h.version) FROM history h WHERE h.shop = e.shop AND h.kind = e.kind AND h.id = e.id)`},
	{"an entry that is not what its current version says", `SELECT count(*) FROM entry e
JOIN history h ON h.shop = e.shop AND h.kind = e.kind AND h.id = e.id AND h.version = e.version
WHERE e.shop = $1 AND (e.gone <> h.gone OR e.form <> h.form OR e.day <> h.day OR e.place <> h.place)`},
	{"a version without its entry", `SELECT count(*) FROM history h WHERE h.shop = $1 AND NOT EXISTS
(SELECT 1 FROM entry e WHERE e.shop = h.shop AND e.kind = h.kind AND e.id = h.id)`},
	{"a version is missing", `SELECT count(*) FROM (SELECT h.kind FROM history h WHERE h.shop = $1
GROUP BY h.kind, h.id HAVING count(*) <> max(h.version)) broken`},
	{"the count of changes is not theirs", `SELECT count(*) FROM shop s WHERE s.shop = $1 AND s.sequence <>
(SELECT count(*) FROM history h WHERE h.shop = s.shop)`},
	{"the count of entries is not theirs", `SELECT count(*) FROM shop s WHERE s.shop = $1 AND s.entries <>
(SELECT count(*) FROM entry e WHERE e.shop = s.shop)`},
	{"a version of a photo is missing", `SELECT count(*) FROM (SELECT p.kind FROM photo p WHERE p.shop = $1
GROUP BY p.kind, p.id HAVING count(*) <> max(p.version)) broken`},
	{"an order that made nothing", `SELECT count(*) FROM done d WHERE d.shop = $1 AND d.last_seq >
(SELECT s.sequence FROM shop s WHERE s.shop = d.shop)`},
}
