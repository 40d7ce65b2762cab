package serve

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/method"
)

type pointedWood struct {
	Radial *float64 `json:"radial_shrinkage_pct"`
}

type pointedRequest struct {
	Wood  *pointedWood `json:"wood"`
	Parts []struct {
		Wood *pointedWood `json:"wood"`
	} `json:"parts"`
	Billet *struct {
		Thickness *float64 `json:"thickness"`
	} `json:"billet"`
}

// A warning points at a member that was sent or could be: by its own name, by the one that
// stands for the name of a chapter, in the billet, in an entry that is there; else nowhere.
func TestPointed(t *testing.T) {
	request := &pointedRequest{Parts: make([]struct {
		Wood *pointedWood `json:"wood"`
	}, 2)}
	for input, pointer := range map[string]string{
		"": "", "wood": "/wood", "radial_pct": "/wood/radial_shrinkage_pct", "thickness": "/billet/thickness",
		"parts/1/radial_pct": "/parts/1/wood/radial_shrinkage_pct", "parts/2/radial_pct": "", "parts/1/shape": "/parts/1",
		"shape": "", "/parts": "/parts", "wood/radial_shrinkage_pct/more": "/wood/radial_shrinkage_pct",
	} {
		told := pointed(request, []method.Warning{{Code: method.Assumption, Input: input, Detail: "x"}})
		assert.Equal(t, pointer, told[0].Input, input)
	}
	assert.Len(t, pointed(request, []method.Warning{{Input: "shape"}, {Input: "form"}}), 1, "what is the same for the caller is told once")
}
