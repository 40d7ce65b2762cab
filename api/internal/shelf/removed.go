package shelf

import "latewood/api/internal/wire"

// Removed is what was taken off a billet.
type Removed struct {
	Start *wire.Length `json:"start,omitempty" validate:"omitempty,gte=0,lte=20" description:"off the length at the start. Left out: nothing"`
	End   *wire.Length `json:"end,omitempty" validate:"omitempty,gte=0,lte=20" description:"off the length at the end. Left out: nothing"`
	Near  *wire.Length `json:"near,omitempty" validate:"omitempty,gte=0,lte=5" description:"off the width at the near edge. Left out: nothing"`
	Far   *wire.Length `json:"far,omitempty" validate:"omitempty,gte=0,lte=5" description:"off the width at the far edge. Left out: nothing"`
	Face1 *wire.Length `json:"face_1,omitempty" validate:"omitempty,gte=0,lte=2" description:"off the thickness at face 1. Left out: nothing"`
	Face2 *wire.Length `json:"face_2,omitempty" validate:"omitempty,gte=0,lte=2" description:"off the thickness at face 2. Left out: nothing"`
}
