package store

import (
	"context"
	"encoding/hex"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// planted are faults of a store or of its disk, each of which loses, doubles or damages
// something when power is lost at the wrong moment.
var planted = []fault{
	{name: "commits are not synced", way: func(w *way) { w.synchronous = "NORMAL" }},
	{name: "nothing is synced", way: func(w *way) { w.synchronous = "OFF" }},
	{name: "the journal is in memory", way: func(w *way) { w.journal = "MEMORY" }},
	{name: "there is no journal", way: func(w *way) { w.journal = "OFF" }},
	{name: "the folder is not synced", disk: func(d *disk) { d.keepsNoNames = true }},
	{name: "the log is not synced", disk: func(d *disk) { d.idleSync = func(name string) bool { return strings.HasSuffix(name, "-wal") } }},
	{name: "the main file is not synced", disk: func(d *disk) { d.idleSync = func(name string) bool { return name == "rack" } }},
	{name: "a backup is not synced", disk: func(d *disk) { d.idleSync = func(name string) bool { return strings.HasPrefix(name, "backup") } }},
	{name: "answered before the commit", apply: answersEarly},
	{name: "the key is saved in a transaction of its own", apply: savesKeyLater},
	{name: "a weighing day is one transaction for each reading", apply: oneByOne},
	{name: "lists are told in a transaction of their own", apply: setsLater},
}

// answersEarly tells the sender that all is done before it is on disk.
func answersEarly(ctx context.Context, f *File, o *Order, answered func()) error {
	tx, err := f.writer.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	if _, err := f.carryOut(ctx, tx, o); err != nil {
		return errors.Join(err, tx.Rollback())
	}
	answered()
	return tx.Commit()
}

// savesKeyLater carries an order out and then writes down that it did.
func savesKeyLater(ctx context.Context, f *File, o *Order, answered func()) error {
	bare := *o
	bare.Key = ""
	receipt, err := f.Apply(ctx, &bare)
	if err != nil {
		return err
	}
	first, last := receipt.Records[0].Sequence, receipt.Records[len(receipt.Records)-1].Sequence
	_, err = f.writer.ExecContext(ctx, addDone, f.shop, o.Key, hex.EncodeToString(o.Digest[:]), first, last)
	answered()
	return err
}

// oneByOne makes each change in a transaction of its own, and saves the key with the last.
func oneByOne(ctx context.Context, f *File, o *Order, answered func()) error {
	for i := range o.Changes {
		part := &Order{By: o.By, Changes: o.Changes[i : i+1]}
		if i == len(o.Changes)-1 {
			part.Key, part.Digest = o.Key, o.Digest
		}
		if _, err := f.Apply(ctx, part); err != nil {
			return err
		}
	}
	answered()
	return nil
}

// setsLater adds a version, and tells the lists of it in a second transaction.
func setsLater(ctx context.Context, f *File, o *Order, answered func()) error {
	if _, err := f.Apply(ctx, o); err != nil {
		return err
	}
	e := &o.Changes[0].Entry
	for _, form := range []string{"not set yet", e.Form} {
		if _, err := f.writer.ExecContext(ctx, `UPDATE entry SET form = $1 WHERE kind = $2 AND id = $3`, form, e.Kind, e.ID); err != nil {
			return err
		}
	}
	answered()
	return nil
}

// Every planted fault is caught: the test of power loss can fail.
func TestPlantedFaultsAreCaught(t *testing.T) {
	for _, f := range planted {
		t.Run(strings.ReplaceAll(f.name, " ", "_"), func(t *testing.T) {
			t.Parallel()
			p := play(t, "planted-"+f.name, fewReadings, f)
			n, err := p.losePower(context.WithoutCancel(t.Context()), "crash-"+f.name, 400, 1)
			if assert.Error(t, err, "power was lost %d times and nothing was wrong", n) {
				t.Logf("caught after %d crashes: %v", n, err)
			}
		})
	}
}
