package seasoning

import (
	"context"

	"latewood/woodphys/drying"
)

// MouldPerDay and StainPerDay are for tests.
var (
	MouldPerDay = mouldPerDay
	StainPerDay = stainPerDay
)

// Harms are the defects of a piece, without the rest of its forecast.
func Harms(ctx context.Context, p *Piece) ([]Defect, error) {
	prior, err := p.Setup()
	if err != nil {
		return nil, err
	}
	o := &Outlook{Prior: prior, solver: drying.Solver{Work: prior.Setup.Work}}
	course, err := o.watch(ctx, p)
	if err != nil {
		return nil, err
	}
	return p.defects(course, nil), nil
}
