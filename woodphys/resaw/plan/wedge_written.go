package plan

import "latewood/woodphys/resaw/exact"

// wedge writes how one blank is planed as a wedge and sawn along its middle.
func (s *stackWriter) wedge(rough inHand) {
	w, part := s.w, s.p.sets[0].part
	near, far := w.edgesThick(s.p.x, s.p.length, s.p.y, s.p.width, w.loss(s.p.length, s.p.width))
	if w.flipY {
		near, far = far, near
	}
	s.b.Usable, s.b.Split, s.b.FarUsable = exact.Length(near), true, exact.LengthPtr(far)
	prism := func(a, b nm) exact.Cubic { return exact.Box(s.p.length, s.p.width, (a+b)/2) }
	flat := prism(near, far)
	whole := s.volume(s.p.x, s.p.x+s.p.length, s.p.y, s.p.y+s.p.width)
	if whole.Compare(flat) > 0 {
		s.shave = s.shave.Plus(whole.Minus(flat))
	}
	kerf := w.kerfAcross(s.r.resaw)
	halfNear, halfFar := downToSteps((near-kerf)/2, w.step), downToSteps((far-kerf)/2, w.step)
	s.piece = s.newPart(0, max(near, far))
	s.add(Step{Action: FlattenBlank, Piece: rough.number, At: s.b.Face1, Kerf: s.b.Usable, Low: s.piece, High: -1,
		Far: exact.LengthPtr(far)})
	first, second := s.newPart(0, max(halfNear, halfFar)), s.newPart(max(near-halfNear, far-halfFar)-max(halfNear, halfFar), max(near, far))
	s.add(Step{Action: Resaw, Piece: s.piece, At: exact.Length(halfNear), Kerf: exact.Length(s.r.resaw), Low: first,
		High: second, Against: Face1, Fence: exact.Length(halfNear), Far: exact.LengthPtr(halfFar)})
	role, set := s.count(part)
	half := prism(halfNear, halfFar)
	for n, one := range []Leaf{
		{From: 0, To: exact.Length(halfNear), FarFrom: exact.LengthPtr(0), FarTo: exact.LengthPtr(halfFar), Piece: first},
		{From: exact.Length(near - halfNear), To: exact.Length(near), FarFrom: exact.LengthPtr(far - halfFar),
			FarTo: exact.LengthPtr(far), Piece: second},
	} {
		one.Number, one.Role, one.Part, one.Set = n+1, role, part, set
		s.b.Leaves = append(s.b.Leaves, one)
		s.plate = s.plate.Plus(half)
	}
	s.dust = s.dust.Plus(flat.Minus(half.Plus(half)))
	s.out.Blanks = append(s.out.Blanks, s.b)
}
