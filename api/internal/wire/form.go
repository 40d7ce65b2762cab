package wire

import "strings"

// Form is a way to show an answer other than as JSON: a drawing or a table. It
// is chosen by the Accept header, or by its name in ?as= from a browser.
type Form struct{ Name, Media string }

// Forms that answers come in.
var (
	DrawnForm = Form{"svg", "image/svg+xml"}
	TableForm = Form{"csv", "text/csv"}
	// PairsForm is a second table, to be chosen by its name only.
	PairsForm = Form{"pairs_csv", "text/csv"}
	// PrintedForm is an answer on paper.
	PrintedForm = Form{"pdf", "application/pdf"}
	// LabelsForm is a sheet of labels, to be chosen by its name only.
	LabelsForm = Form{"labels", "application/pdf"}
	// PrintedTemplateForm is a drawing at true scale on paper, to be chosen by its name only.
	PrintedTemplateForm = Form{"template_pdf", "application/pdf"}
	// PlotForm is a drawing for machines that cut.
	PlotForm = Form{"dxf", "image/vnd.dxf"}
	// TemplateForm is a drawing at true scale, to be chosen by its name only.
	TemplateForm = Form{"template", "image/svg+xml"}
)

// Sent is the Content-Type that an answer of the form is sent with.
func (f *Form) Sent() string {
	if strings.HasPrefix(f.Media, "text/") {
		return f.Media + "; charset=utf-8"
	}
	return f.Media
}

// Binary reports whether the form is bytes that are no text.
func (f *Form) Binary() bool { return f.Media == PrintedForm.Media }

// JSONName is the name of the form that every answer has.
const JSONName = "json"

// Shown is a result with a drawing for the room there is on a screen.
type Shown interface {
	// RenderShown returns the drawing for a screen that has so many px for it.
	RenderShown(width int) ([]byte, error)
}

// Rendered is a result that has other forms than JSON.
type Rendered interface {
	// Render returns the result in the form of that name.
	Render(name string) ([]byte, error)
}
