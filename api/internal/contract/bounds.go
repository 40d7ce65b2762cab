package contract

import "time"

// Bounds that hold for everything the service reads or says, stated in the
// contract where a schema has no narrower one. Tests hold every reply against
// them.
const (
	longestText = 20_000    // characters, of a text in a reply
	longestForm = 4_000_000 // characters, of a drawing or a table
	longestList = 20_000    // entries
	largestInt  = 2_000_000_000
)

// boundEverything gives each text, list and whole number of the schemas a
// bound, so that a caller can size its buffers, and each number its width.
func boundEverything(node any) {
	switch n := node.(type) {
	case []any:
		for _, item := range n {
			boundEverything(item)
		}
	case map[string]any:
		switch n["type"] {
		case "string":
			if n["format"] == "date" {
				setIfMissing(n, "maxLength", len(time.DateOnly))
			}
			if n["enum"] == nil && n["const"] == nil {
				setIfMissing(n, "maxLength", longestText)
			}
		case "array":
			setIfMissing(n, "maxItems", longestList)
		case "number":
			setIfMissing(n, "format", "double") // else generated clients round to 32 bits
		case "integer":
			setIfMissing(n, "format", "int32")
			setIfMissing(n, "minimum", 0)
			setIfMissing(n, "maximum", largestInt)
		}
		for key, child := range n {
			members, are := child.(map[string]any)
			switch {
			case key == "properties" && are: // a member may be called as what is no schema
				for _, member := range members {
					boundEverything(member)
				}
			case key != "examples" && key != "example":
				boundEverything(child)
			}
		}
	}
}

func setIfMissing(schema map[string]any, key string, value any) {
	if _, has := schema[key]; !has {
		schema[key] = value
	}
}
