package drawing

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestClippedTo(t *testing.T) {
	assert.Equal(t, "Astoria, OR", ClippedTo(200, "Astoria, OR"))
	assert.Equal(t, "Astoria...", ClippedTo(57, "Astoria, OR"))
	assert.Equal(t, "Ast...", ClippedTo(30, "Astoria, OR"))
	assert.Empty(t, ClippedTo(25, "Astoria, OR"))
	assert.Empty(t, ClippedTo(1, "Åŝ"))
}
