package wire

// Form is a way to show an answer other than as JSON: a drawing or a table. It
// is chosen by the Accept header, or by its name in ?as= from a browser.
type Form struct{ Name, Media string }

// Forms that answers come in.
var (
	DrawnForm = Form{"svg", "image/svg+xml"}
	TableForm = Form{"csv", "text/csv"}
	// TemplateForm is a drawing at true scale, to be chosen by its name only.
	TemplateForm = Form{"template", "image/svg+xml"}
)

// JSONName is the name of the form that every answer has.
const JSONName = "json"

// Rendered is a result that has other forms than JSON.
type Rendered interface {
	// Render returns the result in the form of that name.
	Render(name string) ([]byte, error)
}
