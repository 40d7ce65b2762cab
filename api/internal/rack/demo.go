package rack

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"time"

	"latewood/api/internal/wire"
)

// Send asks the service that keeps the rack, and gives its answer.
type Send func(path string, body []byte) (answer []byte, err error)

// demoWood is a billet of the demo. All of it is of our own invention.
type demoWood struct {
	wood             string
	width, thickness int     // mm
	days             int     // since it was stacked
	indoors          int     // days since it was brought in; 0: it still lies outdoors
	pace             float64 // of its own drying over that of the forecast
	target           string
	name             string
}

// demoLength is that of all billets of the demo, in mm.
const demoLength = 620

// demoBillets lie on the rack of the demo.
var demoBillets = []demoWood{
	{"walnut-black", 230, 52, 980, 260, 1.0, "harp", "the wide one"},
	{"walnut-black", 210, 54, 980, 260, 0.9, "harp", "its neighbour"},
	{"walnut-black", 190, 75, 980, 0, 1.1, "table", ""},
	{"walnut-black", 240, 65, 610, 0, 1.0, "harp", ""},
	{"walnut-black", 225, 58, 250, 0, 0.95, "harp", "from the valley"},
	{"walnut-black", 180, 50, 60, 0, 1.0, "table", ""},
	{"walnut-black", 250, 80, 1400, 700, 1.0, "table", "crotch"},
	{"walnut-black", 205, 45, 400, 90, 1.2, "harp", ""},
	{"maple-sugar", 225, 58, 1250, 500, 1.0, "harp", "flamed"},
	{"maple-sugar", 215, 58, 1250, 500, 0.85, "harp", "flamed, its sister"},
	{"maple-sugar", 200, 45, 720, 320, 1.0, "chest", ""},
	{"maple-sugar", 190, 50, 520, 0, 1.15, "chest", ""},
	{"maple-sugar", 240, 70, 330, 0, 1.0, "table", ""},
	{"maple-sugar", 185, 40, 150, 0, 0.9, "chest", ""},
	{"maple-sugar", 210, 52, 30, 0, 1.0, "harp", "split last month"},
	{"cherry-black", 200, 48, 860, 420, 1.0, "chest", ""},
	{"cherry-black", 220, 55, 860, 420, 1.1, "table", ""},
	{"cherry-black", 180, 42, 540, 180, 0.9, "chest", ""},
	{"cherry-black", 195, 60, 540, 0, 1.0, "table", ""},
	{"cherry-black", 230, 50, 200, 0, 1.0, "harp", ""},
	{"cherry-black", 205, 46, 95, 0, 1.05, "chest", ""},
	{"cherry-black", 240, 75, 1500, 900, 1.0, "table", "the old board"},
	{"oak-white", 210, 60, 1320, 0, 1.0, "table", ""},
	{"oak-white", 230, 80, 1320, 0, 0.9, "table", ""},
	{"oak-white", 190, 50, 900, 300, 1.0, "chest", "quartered"},
	{"oak-white", 200, 52, 450, 0, 1.1, "chest", "quartered"},
	{"oak-white", 220, 70, 210, 0, 1.0, "table", ""},
	{"oak-white", 185, 45, 75, 0, 1.0, "chest", ""},
	{"oak-white", 240, 90, 1800, 1000, 1.0, "table", "a mantel once"},
	{"ash-white", 215, 50, 780, 400, 1.0, "chest", ""},
	{"ash-white", 205, 55, 480, 0, 0.9, "table", ""},
	{"ash-white", 190, 45, 310, 60, 1.0, "chest", ""},
	{"ash-white", 225, 60, 120, 0, 1.1, "table", ""},
	{"ash-white", 200, 50, 20, 0, 1.0, "chest", ""},
	{"cedar-western-redcedar", 220, 40, 640, 280, 1.0, "harp", "for tops"},
	{"cedar-western-redcedar", 210, 40, 640, 280, 1.1, "harp", "for tops"},
	{"cedar-western-redcedar", 230, 45, 300, 0, 0.9, "harp", ""},
	{"cedar-western-redcedar", 200, 50, 160, 0, 1.0, "chest", ""},
	{"cedar-western-redcedar", 215, 42, 45, 0, 1.0, "harp", ""},
	{"maple-sugar", 235, 65, 1100, 450, 1.0, "harp", "spalted at one end"},
}

// demoWeighings are the days before today on which all wood is weighed.
var demoWeighings = []int{1700, 1450, 1200, 950, 800, 650, 500, 380, 280, 190, 120, 70, 35, 7}

// Demo fills an empty rack with a shop of our own invention, as it would be on a day: its
// wood dries as the forecast has it, each piece at its own pace, and is weighed on a scale of
// 10 g.
func Demo(today time.Time, send Send) error {
	d := &demo{today: today, send: send}
	for _, step := range []func() error{d.room, d.billets, d.weigh, d.happenings} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

type demo struct {
	today time.Time
	send  Send
}

// ago is a day before today.
func (d *demo) ago(days int) string { return d.today.AddDate(0, 0, -days).Format(time.DateOnly) }

func demoID(i int) string { return "b-" + strconv.Itoa(i+1) }

// sheet puts the rows of a sheet on the rack; each of them has to be right.
func (d *demo) sheet(kind string, s *sheet) error {
	body, err := json.Marshal(&Sheet{Kind: kind, CSV: string(s.text)})
	if err != nil {
		return err
	}
	answer, err := d.send("/v1/rack/sheets", body)
	if err != nil {
		return err
	}
	var taken SheetTaken
	if err := json.Unmarshal(answer, &taken); err != nil {
		return err
	}
	for _, r := range taken.Refused {
		return errors.New(kind + " in row " + strconv.Itoa(r.Row) + ": " + r.Column + ": " + r.Detail)
	}
	return nil
}

// Air of the two places that wood of the demo lies in.
const (
	demoShed = `{"station": "columbus-oh", "exposure": "shed"}`
	demoShop = `{"air": {"temperature": "20 C", "rh_pct": 45}, "exposure": "closed_room"}`
)

// room is the shop without its wood.
func (d *demo) room() error {
	var places, targets sheet
	places.line("id", "name", "stay", "note")
	places.line("shed", "the open shed", demoShed, "all wood begins here")
	places.line("shop", "the workshop", demoShop, "heated all winter; the logger hangs by the door")
	places.line("bench", "on the bench", demoShop, "")
	if err := d.sheet("place", &places); err != nil {
		return err
	}
	targets.line("id", "name", "target_condition", "parts")
	targets.line("harp", "a lever harp for the parlour", `{"air": {"temperature": "20 C", "rh_pct": 45}}`, `[{"id": "rib", "length": "560 mm", "width": "170 mm", "final_thickness": "3 mm"}]`)
	targets.line("table", "a table for a house with a stove", `{"air": {"temperature": "21 C", "rh_pct": 38}}`, "")
	targets.line("chest", "a chest for an unheated hall", `{"air": {"temperature": "16 C", "rh_pct": 60}}`, "")
	return d.sheet("target", &targets)
}

func (d *demo) billets() error {
	var all, moves sheet
	all.line("id", "place", "target", "billet.name", "billet.wood", "billet.length", "billet.width", "billet.thickness", "billet.rings.angle_deg", "billet.stacked_on", "billet.end_seal")
	moves.line("id", "billet", "event.kind", "event.date", "event.place")
	for i := range demoBillets {
		w := &demoBillets[i]
		place := "shed"
		if w.indoors > 0 {
			place = "shop"
			moves.line("stacked-"+demoID(i), demoID(i), "stacked", d.ago(w.days), "shed")
			moves.line("moved-"+demoID(i), demoID(i), "moved", d.ago(w.indoors), "shop")
		}
		all.line(demoID(i), place, w.target, w.name, w.wood, strconv.Itoa(demoLength)+" mm", strconv.Itoa(w.width)+" mm", strconv.Itoa(w.thickness)+" mm", "70", d.ago(w.days), "sealed_fresh")
	}
	return errors.Join(d.sheet("billet", &all), d.sheet("event", &moves))
}

// weigh writes the weighings of all wood.
func (d *demo) weigh() error {
	var all sheet
	all.line("id", "billet", "reading.kind", "reading.date", "reading.mass", "reading.note")
	for i := range demoBillets {
		w := &demoBillets[i]
		course, err := d.course(w)
		if err != nil {
			return err
		}
		for _, before := range demoWeighings {
			at := w.days - before
			if at < 0 {
				continue
			}
			// Once indoors it is at its own pace too: the course is read at a time of its own.
			grams := course.grams(w, float64(at)*w.pace)
			mass, note := fmt.Sprintf("%.2f kg", grams/1000), ""
			if i == 3 && before == 70 { // a slip of the pen
				mass, note = fmt.Sprintf("%.2f kg", grams/1000+1.8), "written by lamplight"
			}
			all.line(demoID(i)+"-"+d.ago(before), demoID(i), "weight", d.ago(before), mass, note)
		}
	}
	return d.sheet("reading", &all)
}

// demoCourse is the forecast of a piece of wood, with the mass that it has without water.
type demoCourse struct {
	points  []demoPoint
	ovendry float64 // g
}

type demoPoint struct {
	Days float64   `json:"days"`
	Mean wire.Band `json:"mean_mc"`
}

// course asks for the forecast of a billet.
func (d *demo) course(w *demoWood) (*demoCourse, error) {
	stays := `[` + demoShed + `]`
	if w.indoors > 0 {
		stays = `[{"station": "columbus-oh", "exposure": "shed", "until": "` + d.ago(w.indoors) + `"}, ` + demoShop + `]`
	}
	answer, err := d.send("/v1/readiness", fmt.Appendf(nil, `{"billet": {"wood": %q, "length": "%d mm", "width": "%d mm", "thickness": "%d mm", "rings": {"angle_deg": 70}, "stacked_on": %q},
		"stays": %s, "as_of": %q, "target_condition": {"mc_pct": 9}}`, w.wood, demoLength, w.width, w.thickness, d.ago(w.days), stays, d.today.Format(time.DateOnly)))
	if err != nil {
		return nil, err
	}
	var told struct {
		Result struct {
			Wood struct {
				Figures []struct {
					Name  string  `json:"name"`
					Value float64 `json:"value"`
				} `json:"figures"`
			} `json:"wood"`
			Series []demoPoint `json:"series"`
		} `json:"result"`
	}
	if err := json.Unmarshal(answer, &told); err != nil {
		return nil, err
	}
	c := &demoCourse{points: told.Result.Series}
	for _, f := range told.Result.Wood.Figures {
		if f.Name == "specific_gravity" {
			c.ovendry = f.Value * float64(demoLength*w.width*w.thickness) / 1000 // of the green volume, in g
		}
	}
	if c.ovendry == 0 || len(c.points) < 2 {
		return nil, errors.New("no forecast of " + w.wood)
	}
	return c, nil
}

// grams is what a piece weighs so many days after it was stacked, as the scale shows it.
func (c *demoCourse) grams(w *demoWood, days float64) float64 {
	i, _ := slices.BinarySearchFunc(c.points, days, func(p demoPoint, days float64) int {
		return int(math.Copysign(1, p.Days-days))
	})
	i = min(max(i, 1), len(c.points)-1)
	a, b := &c.points[i-1], &c.points[i]
	share := min(max((days-a.Days)/(b.Days-a.Days), 0), 1)
	mc := a.Mean.Value + share*(b.Mean.Value-a.Mean.Value)
	own := 1 + 0.02*math.Sin(float64(w.width*w.thickness)) // no two are alike in density
	return 10 * math.Round(c.ovendry*own*(1+mc/100)/10)
}

// happenings are what makes a rack one that is lived with: a billet that was planed, one that
// was sawn up and its leaves, one that was used, wood of which too little is known, and notes.
func (d *demo) happenings() error {
	for _, one := range []struct{ path, body string }{
		{"events", `{"id": "planed-b-17", "billet": "b-17", "event": {"kind": "planed", "date": "` + d.ago(3) + `", "note": "to look at the figure"}}`},
		{"events", `{"id": "used-b-22", "billet": "b-22", "event": {"kind": "used", "date": "` + d.ago(12) + `"}}`},
		{"plans", `{"id": "ribs-of-b-9", "billet": "b-9", "date": "` + d.ago(20) + `", "name": "ribs", "saws": [{"usual_kerf": "bandsaw_thin"}], "parts": [{"length": "560 mm", "width": "170 mm", "final_thickness": "3 mm"}]}`},
		{"cuttings", `{"event": {"id": "sawn-b-9", "billet": "b-9", "event": {"kind": "resawn", "date": "` + d.ago(15) + `"}}, "pieces": [` + d.leaf(1) + `, ` + d.leaf(2) + `, ` + d.leaf(3) + `]}`},
		{"readings", `{"id": "leaf-1-read", "piece": "b-9-leaf-1", "reading": {"kind": "pin_meter", "date": "` + d.ago(1) + `", "reading_mc_pct": 9, "wood_temperature": "20 C"}}`},
		{"billets", `{"id": "b-41", "place": "shed", "billet": {"name": "nobody remembers", "wood": "ash-white", "thickness": "50 mm"}}`},
		{"notes", `{"id": "wane", "of": {"kind": "billet", "id": "b-4"}, "date": "` + d.ago(40) + `", "text": "a hand of wane along the far edge; saw it off with the first cut"}`},
		{"notes", `{"id": "scale", "text": "the scale hangs in the shed and shows 10 g; zero it when it is cold"}`},
	} {
		if _, err := d.send("/v1/rack/"+one.path, []byte(one.body)); err != nil {
			return err
		}
	}
	return nil
}

// leaf is a leaf of the billet that was sawn up.
func (d *demo) leaf(n int) string {
	return fmt.Sprintf(`{"id": "b-9-leaf-%d", "parent": {"billet": "b-9"}, "plan": {"id": "ribs-of-b-9", "leaf": "%d"}, "place": "bench", "target": "harp",
		"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "200 mm", "thickness": "5 mm", "rings": {"angle_deg": 70}, "stacked_on": %q, "start_condition": {"mc_pct": 10, "mc_sd_points": 1}}}`, n, n, d.ago(15))
}
