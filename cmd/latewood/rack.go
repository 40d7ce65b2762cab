package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"
	"time"

	"latewood/api"
)

// rackWords are what can be done with a rack, with the number of words that follow.
var rackWords = map[string]int{"backup": 2, "restore": 2, "check": 1, "export": 1, "import": 1, "demo": 1}

// rack looks after a rack.
func (p *program) rack(ctx context.Context, words []string) int {
	if done, status := p.rackSheets(ctx, words); done {
		return status
	}
	if len(words) == 0 || rackWords[words[0]] != len(words)-1 {
		return p.misused(errors.New("rack takes backup RACK FILE, restore FILE RACK, check RACK, export RACK [--csv FOLDER], " +
			"import RACK [--csv FOLDER [--take-the-rest]] or demo FILE"))
	}
	if err := p.lookAfter(ctx, words[0], words[1], words[len(words)-1]); err != nil {
		p.complain(err)
		return exitProblem
	}
	return exitOK
}

// lookAfter does one thing with a rack. to is the last word: a file, or the rack again.
func (p *program) lookAfter(ctx context.Context, word, where, to string) error {
	if word == "restore" {
		return api.RestoreRack(ctx, where, to)
	}
	if word != "import" && word != "demo" {
		if err := there(where); err != nil {
			return err
		}
	}
	rack, err := api.OpenRack(ctx, where)
	if err != nil {
		return err
	}
	switch word {
	case "backup":
		err = rack.Backup(ctx, to)
	case "export":
		err = rack.Export(ctx, p.stdout)
	case "import":
		err = rack.Import(ctx, p.stdin)
	case "demo":
		err = api.DemoRack(ctx, rack, time.Now())
	case "check":
		if err = rack.Check(ctx); err == nil {
			p.print(fmt.Sprintf("%s is whole\n", where))
		}
	}
	return errors.Join(err, rack.Close())
}

// there says that a rack in a file is there: one that is not would be made.
func there(where string) error {
	if strings.Contains(where, "://") {
		return nil
	}
	_, err := os.Stat(where) //nolint:gosec // the operator names the file
	return err
}
