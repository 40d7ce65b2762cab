package plan

import "latewood/woodphys/resaw/exact"

// cost is what cutting takes of the wood: on a saw its kerfs and the re-facing after
// every resaw cut, of a billet on that saw its facings and end trims besides.
type cost struct {
	resaw, cross, rip nm // kerfs
	reface            nm
	far               bool // the far face is finished: the last leaf needs no cut of its own
	f1, f2            nm   // facings of face 1 and of the far face
	trim0, trim1      nm   // of the ends, the cuts included
	step              nm   // sizes as sawn are whole multiples of it; 0: of any size
}

// costOf is what a saw takes of parts that are sawn in steps.
func costOf(s *Saw, step nm) cost {
	return cost{
		resaw: exact.Whole(s.Resaw), cross: upToSteps(exact.Whole(s.Crosscut), step),
		rip: upToSteps(exact.Whole(s.Rip), step), step: step,
		reface: exact.Whole(s.Reface),
		far:    s.FarFaceFinished,
	}
}

// with adds what a billet takes.
func (c cost) with(b *Billet) cost {
	c.f1, c.f2 = exact.Whole(b.FacingFace1), exact.Whole(b.FacingFar)
	c.trim0, c.trim1 = exact.Whole(b.TrimStart), exact.Whole(b.TrimEnd)
	return c
}

// betweenLeaves is what one cut takes of the thickness of a blank.
func (c *cost) betweenLeaves() nm { return c.resaw + c.reface }

// setOf is the usable thickness that a set of a kind takes by itself.
func (c *cost) setOf(k *want) nm {
	need := nm(k.pieces)*k.t + nm(k.pieces-1)*c.betweenLeaves()
	if !c.far {
		need += c.resaw
	}
	return need
}
