package store

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"hash/maphash"
	"math/rand/v2"
	"os"
	"runtime"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Power is lost at every write and every sync of a season of weighing, from the making of
// the file to a backup and its restoring. With LATEWOOD_SWEEP=1 (`make
// crashes`) it is lost as often as LATEWOOD_CRASHES says, or 100 000 times.
const (
	mostAlike   = 128 // of so many crashes one is looked through, whatever was before
	fewCrashes  = 400
	allCrashes  = 100_000
	allReadings = 1000
	fewReadings = 150
)

// season is the orders of a workload: billets, single weighings, and days on which the
// whole rack is weighed.
func season(readings int) []*Order {
	const billets = 20
	var all []*Order
	send := func(changes ...Change) {
		o := &Order{Key: fmt.Sprint("order-", len(all)), By: "bench", Changes: changes}
		o.Digest[0] = byte(len(all))
		all = append(all, o)
	}
	for i := range billets {
		send(Change{Deed: Create, Entry: Entry{Key: Key{Billet, fmt.Sprint("b", i)}, Label: "walnut", Body: []byte(`{"wood": "black walnut", "thickness": "52 mm"}`)}})
	}
	r := rand.New(rand.NewPCG(7, 7))
	made := 0
	reading := func(billet int) Change {
		made++
		return Change{Deed: Create, Entry: Entry{Key: Key{Reading, fmt.Sprint("r", made)}, Of: Key{Billet, fmt.Sprint("b", billet)}, Form: "weight",
			Day: time.Date(2025, 1, made%365, 0, 0, 0, 0, time.UTC).Format(time.DateOnly), Body: fmt.Appendf(nil, `{"kind": "weight", "mass": "%d g"}`, 3000+r.IntN(2000))}}
	}
	for made < readings {
		switch r.IntN(8) {
		case 0:
			var day []Change
			for b := range min(billets, readings-made) {
				day = append(day, reading(b))
			}
			send(day...)
		case 1:
			b := r.IntN(billets)
			send(Change{Deed: Replace, If: AnyVersion, Entry: Entry{Key: Key{Billet, fmt.Sprint("b", b)}, Label: "oak", Body: fmt.Appendf(nil, `{"note": "seen %d"}`, made)}})
		default:
			send(reading(r.IntN(billets)))
		}
	}
	return all
}

// played is a season with what its disk did.
type playedSeason struct {
	orders []*Order
	sizes  []int64 // versions there are after so many orders
	log    []step
	backup int // orders in the backup

	seed  maphash.Seed
	sound sync.Map // of the digests of files that were looked through: the number of orders
}

// seasonTime is when everything happens, so that the same orders make the same bytes.
func seasonTime() time.Time { return time.Date(2026, 3, 14, 9, 0, 0, 0, time.UTC) }

// fault is something planted in the store or its disk.
type fault struct {
	name  string
	way   func(w *way)
	disk  func(d *disk)
	apply func(ctx context.Context, f *File, o *Order, answered func()) error
}

// play runs a season on a disk and writes down what the disk did.
func play(t *testing.T, name string, readings int, f fault) *playedSeason {
	d := newDisk(name)
	defer d.drop()
	d.notes, d.shm = true, t.TempDir()
	w := way{synchronous: "FULL", journal: "WAL", vfs: played, files: playedFiles{d}}
	if f.way != nil {
		f.way(&w)
	}
	if f.disk != nil {
		f.disk(d)
	}
	s, err := openFile(t.Context(), d.path("rack"), w)
	require.NoError(t, err)
	s.now = seasonTime
	season := &playedSeason{orders: season(readings), sizes: []int64{0}, seed: maphash.MakeSeed()}
	for i, o := range season.orders {
		answered := func() { d.said(answers, i+1) }
		if f.apply != nil {
			err = f.apply(t.Context(), s, o, answered)
		} else if _, err = s.Apply(t.Context(), o); err == nil {
			answered()
		}
		require.NoError(t, err)
		season.sizes = append(season.sizes, season.sizes[i]+int64(len(o.Changes)))
		if i == len(season.orders)*3/4 {
			season.backup = i + 1
			err = s.Backup(t.Context(), d.path("backup"))
			require.NoError(t, err)
			d.said(saves, i+1)
		}
	}
	require.NoError(t, restore(t.Context(), d.path("backup"), d.path("restored"), w))
	require.NoError(t, s.Close())
	season.log = d.log
	return season
}

// crash loses power after the step the wreck came to, lets the store be opened again and
// says what is wrong then.
func (p *playedSeason) crash(ctx context.Context, w *wreck, name string, how fate, r *rand.Rand, whole bool) error {
	d := w.left(name, how, r)
	defer d.drop()
	if err := p.found(ctx, d, "rack", w.acked, whole); err != nil {
		return err
	}
	there := d.names["backup"] != nil
	if !there && w.saved >= 0 {
		return errors.New("the backup that was answered is not there")
	}
	if w.saved >= 0 && !whole && !w.touches("backup", "restored") {
		return nil // nothing has happened to it since it was looked at
	}
	if there {
		if err := p.found(ctx, d, "backup", p.backup, whole); err != nil {
			return fmt.Errorf("the backup: %w", err)
		}
	}
	if d.names["restored"] != nil {
		if err := p.found(ctx, d, "restored", p.backup, whole); err != nil {
			return fmt.Errorf("what was restored: %w", err)
		}
	}
	return nil
}

// found opens a rack that was left on a disk: so many orders are in it, or one more that
// was under way, all of that or nothing; sent again, it is in it once. What the file holds
// then is looked through, unless the same bytes were before.
func (p *playedSeason) found(ctx context.Context, d *disk, file string, acked int, whole bool) error {
	next := min(acked+1, len(p.orders))
	if err := p.goesOn(ctx, d, file, acked, next); err != nil {
		return err
	}
	digest := maphash.Bytes(p.seed, d.names[file].data)
	if orders, known := p.sound.Load(digest); known && orders == next && !whole {
		return nil
	}
	if err := p.lookThrough(ctx, d, file, next); err != nil {
		return err
	}
	p.sound.Store(digest, next)
	return nil
}

// opened is a rack on a disk that nobody else has open.
func (*playedSeason) opened(ctx context.Context, d *disk, file string) (*File, error) {
	s, err := openFile(ctx, d.path(file), way{synchronous: "FULL", journal: "WAL", vfs: played, alone: true, files: playedFiles{d}})
	if err == nil {
		s.now = seasonTime
	}
	return s, err
}

// goesOn opens a rack, sends the last orders again and closes it, which brings all of it into
// one file.
func (p *playedSeason) goesOn(ctx context.Context, d *disk, file string, acked, next int) (err error) {
	s, err := p.opened(ctx, d, file)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	var sequence, entries int64
	if err := s.readers.QueryRowContext(ctx, readShop, s.shop).Scan(&sequence, &entries); err != nil {
		return err
	}
	if sequence != p.sizes[acked] && sequence != p.sizes[next] {
		return fmt.Errorf("%d orders of %d versions were answered; there are %d versions", acked, p.sizes[acked], sequence)
	}
	for i := max(acked-1, 0); i < next; i++ {
		receipt, err := s.Apply(ctx, p.orders[i])
		if err != nil {
			return fmt.Errorf("order %d sent again: %w", i, err)
		}
		if i < acked && !receipt.Repeated {
			return fmt.Errorf("order %d was answered, and is not known any more", i)
		}
	}
	return nil
}

// lookThrough looks for what is wrong with a rack that holds so many orders.
func (p *playedSeason) lookThrough(ctx context.Context, d *disk, file string, orders int) (err error) {
	s, err := p.opened(ctx, d, file)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	if err := s.Check(ctx); err != nil {
		return err
	}
	return p.same(ctx, s, orders)
}

// same compares all that is kept with what was sent.
func (p *playedSeason) same(ctx context.Context, s *File, orders int) error {
	all, err := s.Since(ctx, 0, int(p.sizes[orders])+1)
	if err != nil {
		return err
	}
	if int64(len(all)) != p.sizes[orders] {
		return fmt.Errorf("%d versions, not %d", len(all), p.sizes[orders])
	}
	at := 0
	for _, o := range p.orders[:orders] {
		for i := range o.Changes {
			if e := &o.Changes[i].Entry; all[at].Key != e.Key || !bytes.Equal(all[at].Body, e.Body) {
				return fmt.Errorf("version %d is %s %s, not %s %s", at+1, all[at].ID, all[at].Body, e.ID, e.Body)
			}
			at++
		}
	}
	return nil
}

// losePower plays so many crashes, spread over all steps; it returns how many there were
// and the first thing that was wrong.
func (p *playedSeason) losePower(ctx context.Context, name string, crashes int, seed uint64) (int, error) {
	points := 0
	for _, s := range p.log {
		if s.deed < answers {
			points++
		}
	}
	every, each := max(1, points*int(fates)/crashes), max(int(fates), crashes/points)
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	var wait sync.WaitGroup
	var done atomic.Int64
	workers := runtime.GOMAXPROCS(0)
	for worker := range workers {
		wait.Go(func() {
			w, point := newWreck(), 0
			for at, s := range p.log {
				if !w.follow(s) {
					continue
				}
				if point++; point%every != 0 || point/every%workers != worker {
					continue
				}
				for i := range each {
					if ctx.Err() != nil || i > 0 && !w.doubtful() {
						break
					}
					how, r := fate(min(i, int(fates)-1)), rand.New(rand.NewPCG(seed, uint64(at*1000+i)))
					if i >= int(fates) {
						how = someTorn
					}
					n := done.Add(1)
					if err := p.crash(context.WithoutCancel(ctx), w, fmt.Sprintf("%s-%d", name, worker), how, r, n%mostAlike == 0); err != nil {
						stop(fmt.Errorf("power was lost after step %d of %d, %d orders answered, fate %d of %d: %w", at, len(p.log), w.acked, how, i, err))
						return
					}
				}
			}
		})
	}
	wait.Wait()
	return int(done.Load()), context.Cause(ctx)
}

func TestPowerLoss(t *testing.T) {
	crashes, readings := fewCrashes, fewReadings
	if os.Getenv("LATEWOOD_SWEEP") == "1" {
		crashes, readings = allCrashes, allReadings
		if asked := os.Getenv("LATEWOOD_CRASHES"); asked != "" {
			var err error
			crashes, err = strconv.Atoi(asked)
			require.NoError(t, err)
		}
	}
	p := play(t, "season", readings, fault{})
	start := time.Now()
	n, err := p.losePower(context.WithoutCancel(t.Context()), "crash", crashes, 1)
	require.NoError(t, err)
	assert.GreaterOrEqual(t, n, crashes*9/10)
	looked := 0
	p.sound.Range(func(any, any) bool { looked++; return true })
	t.Logf("power was lost %d times, at %d steps of the disk for %d orders, in %v; %d files were looked through", n, len(p.log), len(p.orders), time.Since(start).Round(time.Second), looked)
}
