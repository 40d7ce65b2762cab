package inservice

// leaps are the drifts of many years taken at once by work whose year has not come round. One
// year tells the drift of the next ones only once what passes quickly has passed: a leap after
// which the year moves no less went too far, and those that follow are shorter.
type leaps struct {
	taken, from float64 // years of the last leap, and what the year before it moved
	most        float64 // 0: none went too far
}

// shorter is by how much leaps are after one that went too far. Own choice.
const shorter = 4

// landed looks at a year, which moved so much.
func (l *leaps) landed(moved float64) {
	if l.taken > 0 && moved >= l.from {
		l.most = l.taken / shorter
	}
	l.taken = 0
}

// far is how many years of drift are taken at once, of so many still to come.
func (l *leaps) far(moved, ahead float64) float64 {
	if l.most > 0 {
		ahead = min(ahead, l.most)
	}
	l.taken, l.from = ahead, moved
	return ahead
}
