package year

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
)

// GluedJoint is two parts that are glued to each other: a tenon in its block, a top on its
// ribs, a fingerboard on its neck. It has no clearance; a joint that stays loose is a pair.
type GluedJoint struct {
	ID     string     `json:"id,omitempty" validate:"omitempty,id" description:"yours, by which the answer calls the joint; no two joints have the same. Left out: its position in the list, such as \"1\""`
	Name   string     `json:"name,omitempty" validate:"max=100" description:"for people; given back as it is"`
	First  *JointSide `json:"first" validate:"required" description:"one part, and which of its sizes lies along the glue"`
	Second *JointSide `json:"second" validate:"required" description:"the other, and which of its sizes lies the same way: of a rib under a top its length"`
}

// GluedFigures are the figures of a glued joint.
type GluedFigures struct {
	ID              string        `json:"id" required:"true" description:"your id of the joint, or its position"`
	Name            string        `json:"name,omitempty" description:"your name for the joint"`
	Size            wire.Quantity `json:"size" required:"true" description:"how much is glued: the smaller of both sides"`
	ToDriest        wire.Band     `json:"free_difference_to_driest" required:"true" description:"change of the first less that of the second over the size from the build to the driest state, were they free"`
	ToWettest       wire.Band     `json:"free_difference_to_wettest" required:"true" description:"the same to the wettest state"`
	StrainToDriest  wire.Band     `json:"strain_to_driest" required:"true" description:"the same in percent of the size; one part bears all of it where the other does not give. Below 0 the first is pulled, above the second"`
	StrainToWettest wire.Band     `json:"strain_to_wettest" required:"true" description:"the same to the wettest state"`
	Share           wire.Band     `json:"failure_share" required:"true" description:"the larger of both strains in percent of 1.5 %, where wood begins to fail across the grain (1.5 to 2 %, from memory); elastic, creep takes off a part in months"`
	Risk            string        `json:"risk" required:"true" enum:"low,moderate,high" description:"risk that a part cracks or the joint opens, by the upper end of the band of failure_share; common practice"`
	Detail          string        `json:"detail" required:"true" description:"what that says, in words"`

	called string // by people
}

// jointsOf are the glued joints in SI; it tells which of them name no part or no dimension.
func jointsOf(joints []GluedJoint, parts []ServicePart) ([]inservice.Joint, error) {
	numbers, names := numbered(parts)
	all := make([]inservice.Joint, 0, len(joints))
	problems := []error{ids("glued_joints", len(joints), func(i int) string { return joints[i].ID })}
	for i := range joints {
		j := &joints[i]
		at := "glued_joints/" + strconv.Itoa(i)
		first, noFirst := j.First.side(parts, numbers, names)
		second, noSecond := j.Second.side(parts, numbers, names)
		problems = append(problems, wire.Under(at+"/first", noFirst), wire.Under(at+"/second", noSecond))
		if noFirst == nil && noSecond == nil && first.Part == second.Part {
			problems = append(problems, wire.Contradictory(at+"/second/part", "a part is glued to another, not to itself"))
		}
		all = append(all, inservice.Joint{Name: calledBy(j.Name, j.ID, "joint", i), First: first, Second: second})
	}
	return all, errors.Join(problems...)
}

// riskWords say what a risk means for a glued joint.
var riskWords = map[inservice.Danger]string{
	inservice.Slight: "glued: the parts move so nearly alike that wood and glue bear the difference",
	inservice.Moderate: "glued: the parts hold each other from a difference that wood bears if it is sound; keep the room " +
		"from going so dry or so damp",
	inservice.High: "glued: where neither part gives, one may crack across the grain or the joint open; let it slide, make the " +
		"glued length shorter, or keep the room from going so dry or so damp",
}

func describeJoint(j *inservice.JointHeld, asked *GluedJoint, i int, report wire.Reporter) GluedFigures {
	return GluedFigures{
		ID: shelf.IDOf(asked.ID, i), Name: asked.Name, Size: report.Length(j.Over), ToDriest: report.LengthBand(j.Dry),
		ToWettest: report.LengthBand(j.Wet), StrainToDriest: wire.PercentBandOf(j.DryStrain), StrainToWettest: wire.PercentBandOf(j.WetStrain),
		Share: wire.PercentBandOf(j.Share), Risk: string(j.Danger), Detail: riskWords[j.Danger],
		called: calledBy(asked.Name, asked.ID, "joint", i),
	}
}
