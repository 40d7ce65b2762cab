package wire

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"html"
)

// PageForm is a page to be read and printed.
var PageForm = Form{"html", "text/html"}

// paperStyle sets a page for a screen of any width, and for print.
//
//go:embed paper.css
var paperStyle string

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
