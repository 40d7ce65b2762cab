package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// swaps is what each mutant does to an operator, as gremlins does it.
var swaps = map[string]map[string]string{
	"ARITHMETIC_BASE":         {"+": "-", "-": "+", "*": "/", "/": "*", "%": "*"},
	"CONDITIONALS_BOUNDARY":   {"<=": "<", "<": "<=", ">=": ">", ">": ">="},
	"CONDITIONALS_NEGATION":   {"==": "!=", "!=": "==", "<=": ">", "<": ">=", ">=": "<", ">": "<="},
	"INCREMENT_DECREMENT":     {"++": "--", "--": "++"},
	"INVERT_ASSIGNMENTS":      {"+=": "-=", "-=": "+=", "*=": "/=", "/=": "*="},
	"REMOVE_SELF_ASSIGNMENTS": {"+=": "=", "-=": "=", "*=": "=", "/=": "="},
	"INVERT_LOGICAL":          {"&&": "||", "||": "&&"},
	"INVERT_LOOPCTRL":         {"break": "continue", "continue": "break"},
}

// try runs the tests of a package with one mutant of a file in place of the file: a profile
// of coverage knows neither constants nor the conditions of a switch, so that gremlins calls
// them not covered and leaves them out.
func try(file, code string, m mutant) (status string, err error) {
	lines := strings.Split(code, "\n")
	line := lines[m.Line-1]
	before, rest := line[:m.Column-1], line[m.Column-1:]
	operator := ""
	for from := range swaps[m.Type] {
		if strings.HasPrefix(rest, from) && len(from) > len(operator) {
			operator = from
		}
	}
	if operator == "" {
		return "", fmt.Errorf("%s:%d:%d: no operator of %s", file, m.Line, m.Column, m.Type)
	}
	lines[m.Line-1] = before + swaps[m.Type][operator] + rest[len(operator):]
	folder, err := os.MkdirTemp("", "mutant")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(folder) //nolint:errcheck // a folder of its own
	here, err := filepath.Abs(file)
	if err != nil {
		return "", err
	}
	mutated, overlay := filepath.Join(folder, "mutant.go"), filepath.Join(folder, "overlay.json")
	instead, err := json.Marshal(map[string]map[string]string{"Replace": {here: mutated}})
	if err != nil {
		return "", err
	}
	if err := errors.Join(os.WriteFile(mutated, []byte(strings.Join(lines, "\n")), 0o600), os.WriteFile(overlay, instead, 0o600)); err != nil { //nolint:gosec // a folder of its own
		return "", err
	}
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Minute)
	defer cancel()
	said, failed := exec.CommandContext(ctx, "go", "test", "-vet=off", "-failfast", "-overlay", overlay, "./"+filepath.Dir(file)).CombinedOutput() //nolint:gosec // a package of this module
	switch {
	case ctx.Err() != nil:
		return "TIMED OUT", nil
	case failed == nil:
		return "LIVED", nil
	case strings.Contains(string(said), "[build failed]"):
		return "NOT VIABLE", nil
	}
	return "KILLED", nil
}
