package serve

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"net/http"
	"slices"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/refuse"
)

// Keys are the callers who may ask, each known by the hash of its token. The
// tokens themselves are nowhere in the service.
type Keys struct {
	ids    []string
	roles  []Role
	hashes []hashWords
}

// Role is what a token may do with what is kept. It may always calculate.
type Role string

// Roles, each with the ones before it.
const (
	Read  Role = "read"  // look
	Weigh Role = "weigh" // and add readings and events
	All   Role = "all"   // and do everything else
)

// Roles are all of them, the one that may least first.
var Roles = []Role{Read, Weigh, All}

// may says that a role holds another.
func (r Role) may(needs Role) bool { return slices.Index(Roles, r) >= slices.Index(Roles, needs) }

// hashWords is a SHA-256 as words, which compare faster than bytes.
type hashWords [sha256.Size / 8]uint64

func wordsOf(hash []byte) (words hashWords) {
	for i := range words {
		words[i] = binary.LittleEndian.Uint64(hash[8*i:])
	}
	return words
}

// mostKeys is the longest list of callers: every request is compared with all.
const mostKeys = 1000

// ParseKeys reads lines of "key-id SHA-256 role", the hash of the token in hex and what
// it may do with what is kept, which is read where none is named; blank lines and those that start with # are passed over. The error names the
// line, by its number, and never repeats it.
func ParseKeys(text string) (*Keys, error) {
	k := &Keys{}
	seen := map[string]bool{}
	number := 0
	for line := range strings.Lines(text) {
		number++
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		fields := strings.Fields(line)
		role := Read
		if len(fields) == 3 {
			role, fields = Role(fields[2]), fields[:2]
		}
		if len(fields) != 2 || !wellFormedID(fields[0]) {
			return nil, fmt.Errorf("line %d of the tokens is not a key id (letters, digits, dot, dash) and a SHA-256", number)
		}
		hash, err := hex.DecodeString(fields[1])
		if err != nil || len(hash) != sha256.Size {
			return nil, fmt.Errorf("line %d of the tokens: the second word is not a SHA-256 of 64 hex digits", number)
		}
		if !slices.Contains(Roles, role) {
			return nil, fmt.Errorf("line %d of the tokens: a role is read, weigh or all", number)
		}
		if seen[fields[0]] || seen[string(hash)] {
			return nil, fmt.Errorf("line %d of the tokens has a key id or a token that stands above already", number)
		}
		seen[fields[0]], seen[string(hash)] = true, true
		if len(k.ids) == mostKeys {
			return nil, fmt.Errorf("there are more than %d tokens", mostKeys)
		}
		k.ids, k.roles, k.hashes = append(k.ids, fields[0]), append(k.roles, role), append(k.hashes, wordsOf(hash))
	}
	if len(k.ids) == 0 {
		return nil, fmt.Errorf("there is no token in the tokens; latewood token NAME makes one")
	}
	return k, nil
}

// NewToken makes a random token of 256 bits for a key id, and the line that
// ParseKeys reads. A plain hash guards it well because it cannot be guessed, as
// a password could.
func NewToken(id string) (token, line string, err error) {
	if !wellFormedID(id) {
		return "", "", fmt.Errorf("a key id is 1 to 64 letters, digits, dots, dashes or underscores, not %q", id)
	}
	var secret [32]byte
	if _, err := rand.Read(secret[:]); err != nil {
		return "", "", err
	}
	token = "latewood_" + base64.RawURLEncoding.EncodeToString(secret[:])
	hash := sha256.Sum256([]byte(token))
	return token, id + " " + hex.EncodeToString(hash[:]), nil
}

// find returns the place of a token among the keys. It compares with every hash to the end and
// takes no branch on what it finds, so that the time does not tell how near a
// guess came or where in the list it is.
func (k *Keys) find(token string) (place int, ok bool) {
	sum := sha256.Sum256([]byte(token))
	given := wordsOf(sum[:])
	at := 0 // one more than the index
	for i := range k.hashes {
		var differ uint64
		for j, word := range k.hashes[i] {
			differ |= word ^ given[j]
		}
		same := int(((differ | -differ) >> 63) ^ 1)
		at |= -same & (i + 1)
	}
	return at - 1, at != 0
}

// Openness is to whom a route answers where the service asks for tokens.
type Openness int

// To whom a route answers.
const (
	ToCallers Openness = iota // who has a token
	ToAll                     // everyone: it is the same for all and tells nothing of a caller
	ToProbes                  // everyone, at no price: those who watch over the process have no token
)

const mostToken = 512 // bytes

// authenticate finds who asks, and what the token may do. The error is a *refuse.Problem.
func (k *Keys) authenticate(c echo.Context) (id string, role Role, err error) {
	given := c.Request().Header["Authorization"]
	if len(given) == 0 {
		return "", "", unauthorised("this service asks for a token: Authorization: Bearer TOKEN", `Bearer realm="latewood"`)
	}
	scheme, token, _ := strings.Cut(given[0], " ")
	if token = strings.TrimLeft(token, " "); len(given) == 1 && len(token) <= mostToken && strings.EqualFold(scheme, "Bearer") {
		if at, ok := k.find(token); ok {
			return k.ids[at], k.roles[at], nil
		}
	}
	detail := "the token is not one this service knows"
	switch {
	case len(given) > 1:
		detail = "there are several Authorization headers; send one"
	case !strings.EqualFold(scheme, "Bearer") || token == "":
		detail = "this service takes a bearer token: Authorization: Bearer TOKEN"
	}
	// RFC 6750, 3.1.
	return "", "", unauthorised(detail, `Bearer realm="latewood", error="invalid_token"`)
}

func unauthorised(detail, challenge string) *refuse.Problem {
	p := refuse.New(http.StatusUnauthorized, detail)
	p.Challenge = challenge
	return p
}

func wellFormedID(id string) bool {
	if id == "" || len(id) > 64 {
		return false
	}
	for i := range len(id) {
		b := id[i]
		letter := b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z'
		if !letter && (b < '0' || b > '9') && b != '-' && b != '_' && b != '.' {
			return false
		}
	}
	return true
}
