package wire

import (
	"crypto/sha256"
	"encoding/base64"
	"html"
)

// PageForm is a page to be read and printed.
var PageForm = Form{"html", "text/html"}

// paperStyle sets a page for a screen of any width, and for print.
const paperStyle = `:root{color-scheme:light dark}
body{font:16px/1.4 Georgia,"DejaVu Serif",serif;margin:1.5rem auto;padding:0 1rem;max-width:60rem}
h1{font-size:1.5rem}h2{font-size:1.15rem;margin:1.5rem 0 .4rem}
table{border-collapse:collapse;width:100%;font-size:.9rem}
th,td{border:1px solid #888;padding:.25rem .45rem;text-align:left;vertical-align:top}
tr{break-inside:avoid}thead{display:table-header-group}
.blank{min-width:6rem}
.labels{display:grid;grid-template-columns:repeat(auto-fill,minmax(70mm,1fr));gap:4mm}
.label{border:1px solid #888;padding:3mm;display:flex;gap:4mm;align-items:center;break-inside:avoid}
.label svg{width:26mm;height:26mm;flex:none;background:#fff}
.label strong{font-size:1.25rem;overflow-wrap:anywhere}
@media (max-width:40rem){table,tbody,tr,th,td{display:block;border:0}thead{display:none}tr{border:1px solid #888;margin:.5rem 0}}
@media print{body{margin:0;max-width:none;font-size:10pt}a{color:inherit}}`

// PaperPolicy is the Content-Security-Policy of such a page: it may use its own style, and
// load and run nothing.
var PaperPolicy = func() string {
	sum := sha256.Sum256([]byte(paperStyle))
	return "default-src 'none'; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
}()

// Paper is a page with a body of HTML.
func Paper(title, body string) []byte {
	return []byte("<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><title>" +
		html.EscapeString(title) + "</title><style>" + paperStyle + "</style></head>\n<body>\n" + body + "</body></html>\n")
}
