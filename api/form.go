package api

// form is a way to show an answer other than as JSON: a drawing or a table. It
// is chosen by the Accept header, or by its name in ?as= from a browser.
type form struct{ name, media string }

// Forms that answers come in.
var (
	drawnForm = form{"svg", "image/svg+xml"}
	tableForm = form{"csv", "text/csv"}
	// templateForm is a drawing at true scale, to be chosen by its name only.
	templateForm = form{"template", "image/svg+xml"}
)

const jsonName = "json"

// rendered is a result that has other forms than JSON.
type rendered interface {
	// render returns the result in the form of that name.
	render(name string) ([]byte, error)
}
