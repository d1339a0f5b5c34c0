// Package canon reads and writes the project's JSON files: strictly, with the
// place of every mistake, without losing fields it does not know, and in one
// canonical form that version control can compare line by line.
//
// Start with [Decode] and [Encode]. They follow the json tags of plain structs
// and the marshalling interfaces of encoding/json and encoding. A struct with a
// field "Extra" of a map[string][]byte type keeps there what the file holds
// beyond its fields. Programs that must rework a file before it fits their
// structs go through [Parse] and [Tree].
package canon

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// Limits of what is taken for a file. Far beyond any harness, they stop
// garbage before it fills the memory.
const (
	MaxBytes  = 64 << 20
	MaxDepth  = 100
	MaxValues = 2_000_000
)

// Error is a mistake in a file, with its place.
type Error struct {
	Path      string // "parts[12].views[0].at", "" for the whole file
	Line, Col int    // from 1, Col in characters; zero when the place is not known
	Text      string // what is wrong and what to write instead
}

func (e *Error) Error() string {
	var b strings.Builder
	if e.Line > 0 {
		fmt.Fprintf(&b, "line %d, column %d: ", e.Line, e.Col)
	}
	if e.Path != "" {
		b.WriteString(e.Path)
		b.WriteString(": ")
	}
	b.WriteString(e.Text)
	return b.String()
}

// Decode reads one JSON value into the variable that into points to, which
// should be zero. Mistakes in the data come back as *[Error]. Stricter than
// encoding/json: a name used twice, null where no value may be missing, a
// fraction where a whole number belongs, text that is not UTF-8 and unknown
// fields of a struct without Extra are errors.
func Decode(data []byte, into any) error {
	t, err := Parse(data)
	if err != nil {
		return err
	}
	return t.Decode(into)
}

// ReadAll reads a whole file of JSON, or returns an error as soon as it cannot
// be one: at the first bytes for other sorts of file, at [MaxBytes] for one
// without end.
func ReadAll(r io.Reader) ([]byte, error) {
	head := make([]byte, 4096)
	n, err := io.ReadFull(r, head)
	head = head[:n]
	switch {
	case err != nil && err != io.EOF && err != io.ErrUnexpectedEOF:
		return nil, err
	case bytes.HasPrefix(head, []byte{0xff, 0xfe}), bytes.HasPrefix(head, []byte{0xfe, 0xff}):
		return nil, &Error{Line: 1, Col: 1, Text: "the text is UTF-16: save it as UTF-8"}
	case bytes.HasPrefix(head, []byte{0x1f, 0x8b}), bytes.HasPrefix(head, []byte("PK\x03\x04")): // RFC 1952 section 2.3.1; a zip file's first header
		return nil, &Error{Line: 1, Col: 1, Text: "this is a compressed file: unpack it first"}
	}
	start := bytes.TrimLeft(bytes.TrimPrefix(head, []byte(byteOrderMark)), " \t\r\n")
	if len(start) > 0 && start[0] != '{' && start[0] != '[' {
		r, _ := utf8.DecodeRune(start)
		return nil, &Error{Line: 1, Col: 1, Text: fmt.Sprintf("this is not a JSON file: it begins with %q instead of {", r)}
	}
	if err != nil {
		return head, nil // that was all of it
	}
	data, err := io.ReadAll(io.MultiReader(bytes.NewReader(head), io.LimitReader(r, MaxBytes+1-int64(n))))
	if err != nil {
		return nil, err
	}
	if len(data) > MaxBytes {
		return nil, tooLong()
	}
	return data, nil
}

func tooLong() *Error {
	return &Error{Text: fmt.Sprintf("the file is larger than %d MiB, which no harness needs: it is refused unread", MaxBytes>>20)}
}
