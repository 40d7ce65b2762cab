package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"slices"
	"strings"
)

// node is a JSON value that keeps the order of its members, members named twice, and
// the digits of its numbers.
type node struct {
	kind    byte   // '{', '[' or 'v'
	text    []byte // of a plain value, as it is written
	members []member
	items   []*node
}

type member struct {
	name  string
	value *node
}

// plain is a node of a text.
func plain(text string) *node { return &node{kind: 'v', text: quoted(text)} }

func quoted(text string) []byte {
	out := new(bytes.Buffer)
	encoder := json.NewEncoder(out)
	encoder.SetEscapeHTML(false)
	_ = encoder.Encode(text) // a text always encodes
	return bytes.TrimRight(out.Bytes(), "\n")
}

// parse reads one JSON value and nothing more.
func parse(text []byte) (*node, error) {
	in := json.NewDecoder(bytes.NewReader(text))
	in.UseNumber()
	n, err := readNode(in)
	if err != nil {
		return nil, err
	}
	if _, err := in.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("there is text after the value")
	}
	return n, nil
}

func readNode(in *json.Decoder) (*node, error) {
	token, err := in.Token()
	if err != nil {
		return nil, err
	}
	switch is := token.(type) {
	case json.Delim:
		n := &node{kind: byte(is)}
		for in.More() {
			name := ""
			if is == '{' {
				key, err := in.Token()
				if err != nil {
					return nil, err
				}
				name, _ = key.(string)
			}
			value, err := readNode(in)
			if err != nil {
				return nil, err
			}
			if is == '{' {
				n.members = append(n.members, member{name, value})
			} else {
				n.items = append(n.items, value)
			}
		}
		_, err := in.Token()
		return n, err
	case string:
		return plain(is), nil
	case json.Number:
		return &node{kind: 'v', text: []byte(is)}, nil
	default:
		text, err := json.Marshal(is)
		return &node{kind: 'v', text: text}, err
	}
}

// string is the text of a node that is one.
func (n *node) string() (string, bool) {
	var text string
	if n == nil || n.kind != 'v' || n.text[0] != '"' {
		return "", false
	}
	return text, json.Unmarshal(n.text, &text) == nil
}

// get is the member of an object; nil where there is none.
func (n *node) get(name string) *node {
	if i := n.index(name); i >= 0 {
		return n.members[i].value
	}
	return nil
}

func (n *node) index(name string) int {
	if n == nil {
		return -1
	}
	return slices.IndexFunc(n.members, func(m member) bool { return m.name == name })
}

// take removes a member and returns it; nil where there is none.
func (n *node) take(name string) *node {
	i := n.index(name)
	if i < 0 {
		return nil
	}
	value := n.members[i].value
	n.members = slices.Delete(n.members, i, i+1)
	return value
}

// put adds a member at the end; nothing where value is nil.
func (n *node) put(name string, value *node) {
	if value != nil {
		n.members = append(n.members, member{name, value})
	}
}

// below is the object of that name, made at place where there is none yet.
func (n *node) below(name string, place int) *node {
	if is := n.get(name); is != nil {
		return is
	}
	made := &node{kind: '{'}
	n.members = slices.Insert(n.members, min(max(place, 0), len(n.members)), member{name, made})
	return made
}

// Columns of a line, and of a whole request on one.
const (
	width = 170
	short = 100
)

// written is the value as the examples are laid out: what fits on a line stands on one.
func (n *node) written() []byte { return append(n.layout(nil, 0, 0), '\n') }

// line is the value on one line.
func (n *node) line(out []byte) []byte {
	switch n.kind {
	case '{':
		out = append(out, '{')
		for i, m := range n.members {
			if i > 0 {
				out = append(out, ", "...)
			}
			out = append(append(out, quoted(m.name)...), ": "...)
			out = m.value.line(out)
		}
		return append(out, '}')
	case '[':
		out = append(out, '[')
		for i, v := range n.items {
			if i > 0 {
				out = append(out, ", "...)
			}
			out = v.line(out)
		}
		return append(out, ']')
	}
	return append(out, n.text...)
}

// layout writes the value at a depth, beginning after so many columns.
func (n *node) layout(out []byte, depth, column int) []byte {
	flat := n.line(nil)
	many := len(n.members) + len(n.items)
	if n.kind == 'v' || many == 0 || (depth > 0 && column+len(flat) < width) || len(flat) < short {
		return append(out, flat...)
	}
	ends := map[byte]string{'{': "}", '[': "]"}
	indent := strings.Repeat("  ", depth+1)
	out = append(out, n.kind, '\n')
	for i := range many {
		out = append(out, indent...)
		lead := len(indent)
		value := n
		if n.kind == '{' {
			name := quoted(n.members[i].name)
			out = append(append(out, name...), ": "...)
			lead += len(name) + 2
			value = n.members[i].value
		} else {
			value = n.items[i]
		}
		out = value.layout(out, depth+1, lead)
		if i < many-1 {
			out = append(out, ',')
		}
		out = append(out, '\n')
	}
	return append(append(out, indent[2:]...), ends[n.kind]...)
}
