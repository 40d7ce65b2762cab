// Asks the service every request of the demo through the client in Go, and prints a line
// for each. client.ts does the same in TypeScript; the lines must agree.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"latewood/api/client"
)

var demo string

func main() {
	if len(os.Args) != 3 {
		stop("usage: client SERVICE DEMO")
	}
	demo = os.Args[2]
	c, ctx := client.New(os.Args[1]), context.Background()

	for _, file := range in("rack") {
		result := answer(file, c.AssessReadiness, request[client.ReadinessRequest](file))
		words := []any{result.Summary, fmt.Sprintf("%.6f", result.Moisture.Mc.Value)}
		for _, s := range result.Verdicts {
			words = append(words, fmt.Sprintf("%s: %s", s.Step, s.Verdict))
		}
		tell(file, words...)
	}
	for _, file := range in("seasoning") {
		result := answer(file, c.ForecastSeasoning, request[client.SeasoningRequest](file))
		tell(file, result.Summary, or(result.MeanDry.Value, "never"))
	}
	for _, file := range in("instrument") {
		result := answer(file, c.CalculateAssemblyMovement, request[client.AssemblyMovementRequest](file))
		tell(file, result.Summary, len(result.Parts), len(result.Pairs))
	}
	file := "drop-top.json"
	tell(file, band(answer(file, c.CalculateMovement, request[client.MovementRequest](file)).Change))
	file = "set-of-leaves.json"
	leaves := answer(file, c.CalculateLeafYield, request[client.LeafYieldRequest](file))
	tell(file, leaves.Leaves, leaves.Sets, leaves.UnpairedLeaves)
	file = "winter-air.json"
	heated := "not heated"
	if state := answer(file, c.CalculateAir, request[client.AirRequest](file)).Heated; state != nil {
		heated = fmt.Sprintf("%.6f", state.RhPct)
	}
	tell(file, heated)

	// Written out, so that the compiler holds the request against the contract.
	written := client.MovementRequest{
		Wood: client.Wood{Name: "maple-sugar"}, Size: client.Of(13, "in"), Direction: "tangential",
		FromCondition: client.Condition{Air: &client.Air{Temperature: client.Text("68 F"), RhPct: new(45.0)}},
		ToCondition:   client.Condition{McPct: new(6.0)}, ReportIn: "inch",
	}
	tell("written out", band(answer("written out", c.CalculateMovement, written).Change))

	var problem *client.Problem
	written.Size = client.Text("13")
	_, err := c.CalculateMovement(ctx, written)
	if !errors.As(err, &problem) {
		stop("wrong size", err)
	}
	words := []any{problem.Status}
	for _, e := range problem.Errors {
		words = append(words, string(e.Pointer)+": "+e.Code)
	}
	tell("wrong size", words...)

	page, err := c.ListSpecies(ctx, client.With("q", "walnut"), client.With("limit", "2"))
	must(err)
	words = []any{page.Total}
	for _, s := range page.Items {
		words = append(words, s.Id)
	}
	tell("species", words...)
	if _, err = c.GetSpecies(ctx, "no-such-wood"); !errors.As(err, &problem) {
		stop("no such wood", err)
	}
	tell("no such wood", problem.Status, problem.Type)

	written.Size = client.Of(13, "in")
	first, err := c.CalculateMovement(ctx, written, client.Tagged(""))
	must(err)
	_, err = c.CalculateMovement(ctx, written, client.Tagged(first.Tag))
	tell("held", errors.Is(err, client.ErrHeld))

	var items []client.Item
	for _, inches := range []float64{9, 10, 11} {
		written.Size = client.Of(inches, "in")
		items = append(items, client.Item{ID: fmt.Sprint(inches), Route: "/v1/movement", Request: written})
	}
	for item, err := range c.Stream(ctx, items, client.ByQuery()) {
		must(err)
		one, err := client.As[client.MovementResult](item)
		must(err)
		tell("streamed", item.Line, item.ID, band(one.Result.Change))
	}
	drawings(ctx, c)
}

// drawings have a tag too.
func drawings(ctx context.Context, c *client.Client) {
	section, err := os.ReadFile("api/examples/section-shape.flatsawn-board-after-drying.json")
	must(err)
	drawn, err := c.Rendered(ctx, "/v1/section-shape", "svg", json.RawMessage(section), client.Tagged(""))
	must(err)
	_, err = c.Rendered(ctx, "/v1/section-shape", "svg", json.RawMessage(section), client.Tagged(drawn.Tag))
	tell("drawn", drawn.Media, bytes.HasPrefix(drawn.Bytes, []byte("<svg")), errors.Is(err, client.ErrHeld))
}

// in lists the requests of a folder of the demo.
func in(folder string) []string {
	found, err := filepath.Glob(filepath.Join(demo, folder, "*.json"))
	must(err)
	for i := range found {
		found[i] = folder + "/" + filepath.Base(found[i])
	}
	return found
}

// request reads a request into its generated type, which must know every member.
func request[T any](file string) (v T) {
	text, err := os.ReadFile(filepath.Join(demo, file))
	must(err)
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&v); err != nil {
		stop(file, err)
	}
	return v
}

// answer is the result of a calculation; anything else stops the run.
func answer[Q, R any](file string, ask func(context.Context, Q, ...client.Option) (client.Answer[R], error), request Q) R {
	a, err := ask(context.Background(), request)
	if err != nil {
		stop(file, err)
	}
	return a.Result
}

func band(q client.Band) string {
	return fmt.Sprintf("%.6f %s (%.6f to %.6f)", q.Value, q.Unit, q.Low, q.High)
}

func or(text, fallback string) string {
	if text == "" {
		return fallback
	}
	return text
}

func tell(file string, words ...any) {
	parts := []string{file}
	for _, w := range words {
		parts = append(parts, fmt.Sprint(w))
	}
	fmt.Println(strings.Join(parts, " | "))
}

func must(err error) {
	if err != nil {
		stop(err)
	}
}

func stop(words ...any) {
	fmt.Fprintln(os.Stderr, words...)
	os.Exit(1)
}
