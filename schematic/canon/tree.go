package canon

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Kind is the sort of a JSON value.
type Kind uint8

const (
	Null Kind = iota
	Bool
	Number
	Text
	List
	Object
)

func (k Kind) String() string {
	return [...]string{"null", "true or false", "a number", "a text", "a list", "an object"}[k]
}

// Node is one value of a parsed file. It may be changed before [Tree.Decode].
type Node struct {
	Kind Kind
	Name string // of a member of an object
	Text string // of a text; the digits of a number; "true" or "false"
	Kids []Node // items of a list, members of an object

	off     int32 // of the value in the file; of its nearest forebear when made
	nameOff int32
	width   int32 // of the form on one line, while printing
}

// Field returns the named member of an object, or nil. The pointer is good
// until the object gets another member.
func (n *Node) Field(name string) *Node {
	if n == nil || n.Kind != Object {
		return nil
	}
	for i := range n.Kids {
		if n.Kids[i].Name == name {
			return &n.Kids[i]
		}
	}
	return nil
}

// Set gives an object a member, replacing one of the same name. What is made
// without a place of its own takes the object's.
func (n *Node) Set(name string, v Node) {
	if old := n.Field(name); old != nil {
		old.Become(v)
		return
	}
	v.Name, v.nameOff = name, n.off
	v.settle(n.off)
	// A full slice expression: the spare capacity may belong to a neighbour.
	n.Kids = append(n.Kids[:len(n.Kids):len(n.Kids)], v)
}

// Become makes n another value under the same name and at the same place.
func (n *Node) Become(v Node) {
	v.Name, v.nameOff = n.Name, n.nameOff
	v.settle(n.off)
	*n = v
}

// settle gives made values a place to report mistakes at.
func (n *Node) settle(off int32) {
	if n.off == 0 {
		n.off, n.nameOff = off, max(off, n.nameOff)
	}
	for i := range n.Kids {
		n.Kids[i].settle(n.off)
	}
}

// Remove takes a member from an object and returns it.
func (n *Node) Remove(name string) (Node, bool) {
	for i := range n.Kids {
		if n.Kids[i].Name == name {
			v := n.Kids[i]
			n.Kids = append(n.Kids[:i:i], n.Kids[i+1:]...)
			return v, true
		}
	}
	return Node{}, false
}

// TextNode returns a text.
func TextNode(s string) Node { return Node{Kind: Text, Text: s} }

// ObjectNode returns an object of named members.
func ObjectNode(members ...Node) Node { return Node{Kind: Object, Kids: members} }

// Named returns the value as a member of that name.
func (n Node) Named(name string) Node {
	n.Name = name
	return n
}

// IntNode returns a whole number.
func IntNode(v int) Node { return Node{Kind: Number, Text: strconv.Itoa(v)} }

// Tree is a parsed file.
type Tree struct {
	Root Node
	src  string
}

// Errorf returns an error about the value at n, which has the given path.
func (t *Tree) Errorf(n *Node, path, format string, args ...any) *Error {
	return t.errorAt(int(n.off), path, format, args...)
}

func (t *Tree) errorAt(off int, path, format string, args ...any) *Error {
	line, col := t.place(off)
	return &Error{Path: path, Line: line, Col: col, Text: fmt.Sprintf(format, args...)}
}

// Offset returns the byte of the file that a value begins at. The order of
// offsets is that of the file; unlike the line it costs nothing to ask.
func (n *Node) Offset() int { return int(n.off) }

// Line returns the line a value begins on.
func (t *Tree) Line(n *Node) int {
	line, _ := t.place(int(n.off))
	return line
}

func (t *Tree) place(off int) (line, col int) {
	before := t.src[:min(off, len(t.src))]
	start := strings.LastIndexByte(before, '\n') + 1
	return 1 + strings.Count(before, "\n"), 1 + utf8.RuneCountInString(strings.TrimPrefix(before[start:], byteOrderMark))
}

// Find follows a path such as "parts[12].views[0].at" from n and returns the
// last value on it that is there.
func (n *Node) Find(path string) *Node {
	for path != "" {
		var next *Node
		if rest, ok := strings.CutPrefix(path, "["); ok {
			var index string
			index, path, _ = strings.Cut(rest, "]")
			if i, err := strconv.Atoi(index); err == nil && n.Kind == List && i >= 0 && i < len(n.Kids) {
				next = &n.Kids[i]
			} else if name, err := strconv.Unquote(index); err == nil {
				next = n.Field(name)
			}
		} else {
			path = strings.TrimPrefix(path, ".")
			end := strings.IndexAny(path, ".[")
			if end < 0 {
				end = len(path)
			}
			next, path = n.Field(path[:end]), path[end:]
		}
		if next == nil {
			return n
		}
		n = next
	}
	return n
}

// PathName returns the step of a path that leads to a member: ".at", or
// `["a b"]` for names that are not plain words.
func PathName(name string) string {
	plain := name != ""
	for i := range len(name) {
		c := name[i]
		plain = plain && (c == '_' || c == '-' || c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z')
	}
	if plain {
		return "." + name
	}
	if len(name) > 60 {
		name = strings.ToValidUTF8(name[:60], "") + "…"
	}
	return "[" + strconv.Quote(name) + "]"
}
