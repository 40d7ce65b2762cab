package serve

import (
	"bytes"
	"context"
	"net/http"
	"time"

	"github.com/klauspost/compress/gzip"
	"github.com/labstack/echo/v4"

	"latewood/api/internal/decode"
	"latewood/api/internal/fair"
	"latewood/api/internal/refuse"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// What the tests of this package see besides.
const (
	MostItems      = mostItems
	MostHeavyItems = mostHeavyItems
	BatchTime      = batchTime
	PieceItems     = pieceItems
	MostStreams    = mostStreams
	MostLine       = mostLine
	MostOwnStreams = mostOwnStreams
	QueueWait      = queueWait
	QueuePatience  = queuePatience
	BusyRetry      = busyRetry
	MostKeys       = mostKeys
	SmallText      = smallText
	MaxFieldErrors = refuse.Most
)

// Functions that the tests call.
var (
	WriteJSON  = writeJSON
	ThreadTime = threadTime
)

// Decode is decode.Body.
func Decode[T any](body []byte) (*T, error) { return decode.Body[T](body) }

// Tables are those of the service.
func (s *Service) Tables() *shelf.Tables { return s.desk.tables }

// Turns are those of its heavy calculations; so many are taken.
func (s *Service) Turns() (all, taken int) {
	return s.desk.seats.turns.Places, s.desk.seats.turns.Working()
}

// TakeTurns takes all turns for a caller of its own; the function gives them back.
func (s *Service) TakeTurns(guess time.Duration) (giveBack func()) {
	q := s.desk.seats.turns
	turn, err := q.Enter(context.Background(), fair.Request{Caller: "test", Width: q.Places, Guess: guess, Patient: true})
	if err != nil {
		panic(err)
	}
	return func() { turn.Leave(guess) }
}

// SetClock sets the clock by which work in turns is measured.
func (s *Service) SetClock(clock func() time.Duration) { s.desk.seats.clock = clock }

// Held is what the accounts of the service hold, by name.
func (s *Service) Held() map[string]int64 {
	of := s.desk.stores
	return map[string]int64{"all": of.all.Held(), "small bodies": of.smallBodies.Held(), "large bodies": of.largeBodies.Held(),
		"small texts": of.smallTexts.Held(), "large texts": of.largeTexts.Held(), "batches": of.batches.Held(),
		"light places": int64(len(s.desk.seats.light)), "turns": int64(s.desk.seats.turns.Working()), "waiting": int64(s.desk.seats.turns.Waiting())}
}

// SetMostSimulated sets the time steps of one request.
func (s *Service) SetMostSimulated(steps int) { s.desk.mostSimulated = steps }

// Streams is how many are under way.
func (s *Service) Streams() int { return int(s.desk.streams.Load()) }

// TakeStreams takes so many streams; the function gives them back.
func (s *Service) TakeStreams(n int) (giveBack func()) {
	s.desk.streams.Add(int32(n))
	return func() { s.desk.streams.Add(int32(-n)) }
}

// Answers adds a calculation of the test's own.
func (s *Service) Answers(path string, w Work) { s.desk.works[path] = w }

// Handles adds a handler of the test's own.
func (s *Service) Handles(path string, h echo.HandlerFunc) { s.echo.GET(path, h) }

// SplitBatch finds the items of a batch.
func (s *Service) SplitBatch(body []byte) error {
	_, err := s.desk.splitBatch(body)
	return err
}

// Encoded asks a calculation and encodes its answer twice: as the service does, by
// the function returned, and as it is, by the caller.
func (s *Service) Encoded(ctx context.Context, path string, body []byte) (answer any, encode func(*bytes.Buffer, *wire.Encoder) error, err error) {
	task, err := s.desk.works[path].Read(body)
	if err != nil {
		return nil, nil, err
	}
	r, err := task.Run(ctx, s.desk.tables)
	if err != nil {
		return nil, nil, err
	}
	return r, r.encode, nil
}

// TakeZippers takes all zippers; the function gives them back.
func TakeZippers() (giveBack func()) {
	all := make([]*gzip.Writer, mostZippers)
	for i := range all {
		all[i] = <-zippers
	}
	return func() {
		for _, z := range all {
			zippers <- z
		}
	}
}

// BulkOf is what a request tells of the length of its answer, and whether it is heavy.
func (s *Service) BulkOf(path string, body []byte) (bulk int, heavy bool, err error) {
	task, err := s.desk.works[path].Read(body)
	if err != nil {
		return 0, false, err
	}
	return task.bulk(), task.heavy(), nil
}

// AddressOf is addressOf.
func (p *Proxies) AddressOf(request *http.Request) string { return p.addressOf(request) }

// Find is find.
func (k *Keys) Find(token string) (id string, ok bool) {
	at, ok := k.find(token)
	if !ok {
		return "", false
	}
	return k.ids[at], true
}

// EnvelopeOf is envelope, of what a request is told.
func EnvelopeOf[T any](t *shelf.Tables, request any, result T, notes method.Notes) *Answer[T] {
	notes.Warnings = pointed(request, notes.Warnings)
	return envelope(t, result, notes)
}
