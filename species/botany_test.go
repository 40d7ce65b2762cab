package species

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a wood is does not hang on where it grows: all woods that the tables list as
// softwoods are conifers and none of the hardwoods is, and of the imported woods these are,
// by general botany, and no other.
func TestBotany(t *testing.T) {
	imported := []string{
		"alerce", "caribbean-pine", "cypress-italian", "cypress-mexican", "cypress-pine-white", "fir-silver", "hinoki", "kauri",
		"larch-european", "ocota-pine", "parana-pine", "pine-bunya", "pine-hoop", "pine-huon", "pine-king-william", "pine-radiata",
		"pine-scots", "pine-swiss-stone", "podocarp-african", "podocarp-american", "podocarp-asian-and-oceanian", "rimu",
		"spruce-norway", "sugi", "yew-european",
	}
	var found []string
	for _, w := range tables(t).Woods() {
		switch w.Group {
		case Softwood, Hardwood:
			assert.Equal(t, w.Group, w.Botany(), w.ID)
		case Imported:
			if w.Botany() == Softwood {
				found = append(found, w.ID)
			}
		}
	}
	assert.Equal(t, imported, found)
}
