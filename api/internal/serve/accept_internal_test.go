package serve

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestChoose(t *testing.T) {
	offers := []string{"application/json", "image/svg+xml", "text/csv"}
	for accept, want := range map[string]string{
		"": "application/json", "*/*": "application/json", "image/svg+xml": "image/svg+xml", "image/*": "image/svg+xml",
		"text/csv, application/json": "application/json", "text/csv, application/json;q=0.9": "text/csv",
		"*/*;q=0.1, text/csv;q=0.2": "text/csv", "application/json;q=0, */*": "image/svg+xml",
		"text/*;q=0.5, image/*;q=0.4, */*;q=0.3": "text/csv", "application/pdf": "",
		"text/html,application/xhtml+xml,image/avif,image/webp,*/*;q=0.8": "application/json",
	} {
		assert.Equal(t, want, choose(accept, offers), accept)
	}
}
