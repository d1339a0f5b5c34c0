package canon

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// byteOrderMark is what some editors write before UTF-8 text.
const byteOrderMark = "\ufeff"

// Parse reads JSON text into a tree. Mistakes come back as *[Error].
func Parse(data []byte) (*Tree, error) {
	if len(data) > MaxBytes {
		return nil, tooLong()
	}
	return new(parser).parse(string(data))
}

// parse may be called again once the tree before is done with.
func (p *parser) parse(src string) (*Tree, error) {
	p.t, p.src, p.pos, p.values = &Tree{src: src}, src, 0, 0
	p.stack, p.path = p.stack[:0], p.path[:0]
	if strings.HasPrefix(p.src, byteOrderMark) {
		p.pos = len(byteOrderMark)
	}
	if !utf8.ValidString(p.src) {
		for i, r := range p.src {
			if _, n := utf8.DecodeRuneInString(p.src[i:]); r == utf8.RuneError && n == 1 {
				return nil, p.t.errorAt(i, "", "the byte %#02x is not UTF-8: save the file as UTF-8", p.src[i])
			}
		}
	}
	root, err := p.value(0)
	if err != nil {
		return nil, err
	}
	p.t.Root = root
	p.space()
	if p.pos < len(p.src) {
		return nil, p.fail(p.pos, "there is more text after the end of the value: %s", p.found())
	}
	return p.t, nil
}

type parser struct {
	t      *Tree
	src    string
	pos    int
	values int
	stack  []Node // finished siblings of the open lists and objects
	path   []step
}

// step is one step from the root: a name, or an index when the name is unset.
type step struct {
	name  string
	index int
}

func pathText(steps []step) string {
	var b strings.Builder
	for _, s := range steps {
		if s.index >= 0 {
			fmt.Fprintf(&b, "[%d]", s.index)
			continue
		}
		b.WriteString(PathName(s.name))
	}
	return strings.TrimPrefix(b.String(), ".")
}

func (p *parser) fail(off int, format string, args ...any) *Error {
	return p.t.errorAt(off, pathText(p.path), format, args...)
}

func (p *parser) space() {
	for p.pos < len(p.src) {
		switch p.src[p.pos] {
		case ' ', '\n', '\t', '\r':
			p.pos++
		default:
			return
		}
	}
}

// found describes what stands at the position.
func (p *parser) found() string {
	if p.pos >= len(p.src) {
		return "the end of the file"
	}
	r, _ := utf8.DecodeRuneInString(p.src[p.pos:])
	return strconv.QuoteRune(r)
}

// value parses one value. Nodes are passed by value: so they stay off the heap
// until their list or object is whole.
func (p *parser) value(depth int) (n Node, err *Error) {
	p.space()
	if p.values++; p.values > MaxValues {
		return n, p.fail(p.pos, "the file holds more than %d values, which no harness needs", MaxValues)
	}
	n.off = int32(p.pos)
	if p.pos >= len(p.src) {
		return n, p.fail(p.pos, "the file ends where a value should stand")
	}
	switch c := p.src[p.pos]; {
	case c == '{' || c == '[':
		if depth >= MaxDepth {
			return n, p.fail(p.pos, "lists and objects are nested more than %d deep", MaxDepth)
		}
		p.pos++
		if c == '{' {
			n.Kind = Object
			n.Kids, err = p.object(depth)
		} else {
			n.Kind = List
			n.Kids, err = p.list(depth)
		}
		return n, err
	case c == '"':
		n.Kind = Text
		n.Text, err = p.text()
		return n, err
	case c == '-' || c >= '0' && c <= '9':
		n.Kind = Number
		n.Text, err = p.number()
		return n, err
	}
	for _, w := range [...]string{"true", "false", "null"} {
		if strings.HasPrefix(p.src[p.pos:], w) {
			p.pos += len(w)
			if w != "null" {
				n.Kind, n.Text = Bool, w
			}
			return n, nil
		}
	}
	return n, p.fail(p.pos, "a value should stand here, found %s", p.found())
}

func (p *parser) list(depth int) ([]Node, *Error) {
	base := len(p.stack)
	p.space()
	for i := 0; !p.take(']'); i++ {
		if i > 0 && !p.take(',') {
			return nil, p.fail(p.pos, "a comma or ] should stand here, found %s", p.found())
		}
		p.path = append(p.path, step{index: i})
		kid, err := p.value(depth + 1)
		if err != nil {
			return nil, err
		}
		p.path = p.path[:len(p.path)-1]
		p.stack = append(p.stack, kid)
		p.space()
	}
	return p.collect(base), nil
}

func (p *parser) object(depth int) ([]Node, *Error) {
	base := len(p.stack)
	p.space()
	for i := 0; !p.take('}'); i++ {
		if i > 0 {
			if !p.take(',') {
				return nil, p.fail(p.pos, "a comma or } should stand here, found %s", p.found())
			}
			p.space()
		}
		if p.pos >= len(p.src) || p.src[p.pos] != '"' {
			return nil, p.fail(p.pos, "a field name in double quotes should stand here, found %s", p.found())
		}
		nameOff := int32(p.pos)
		name, err := p.text()
		if err != nil {
			return nil, err
		}
		p.space()
		p.path = append(p.path, step{name: name, index: -1})
		if !p.take(':') {
			return nil, p.fail(p.pos, "a colon should stand here, found %s", p.found())
		}
		kid, err := p.value(depth + 1)
		if err != nil {
			return nil, err
		}
		kid.Name, kid.nameOff = name, nameOff
		p.path = p.path[:len(p.path)-1]
		p.stack = append(p.stack, kid)
		p.space()
	}
	kids := p.collect(base)
	return kids, p.unique(kids)
}

// unique refuses names that stand twice in an object: readers disagree about
// which of the two counts.
func (p *parser) unique(kids []Node) *Error {
	twice := func(a, b *Node) *Error {
		line, _ := p.t.place(int(a.nameOff))
		p.path = append(p.path, step{name: b.Name, index: -1})
		return p.fail(int(b.nameOff), "the field stands here a second time, first on line %d: leave one out", line)
	}
	if len(kids) <= 24 {
		for i := range kids {
			for j := range i {
				if kids[i].Name == kids[j].Name {
					return twice(&kids[j], &kids[i])
				}
			}
		}
		return nil
	}
	seen := make(map[string]int, len(kids))
	for i := range kids {
		if j, ok := seen[kids[i].Name]; ok {
			return twice(&kids[j], &kids[i])
		}
		seen[kids[i].Name] = i
	}
	return nil
}

func (p *parser) collect(base int) []Node {
	if len(p.stack) == base {
		return nil
	}
	kids := make([]Node, len(p.stack)-base)
	copy(kids, p.stack[base:])
	p.stack = p.stack[:base]
	return kids
}

func (p *parser) take(c byte) bool {
	if p.pos < len(p.src) && p.src[p.pos] == c {
		p.pos++
		return true
	}
	return false
}

func (p *parser) digits() int {
	start := p.pos
	for p.pos < len(p.src) && p.src[p.pos] >= '0' && p.src[p.pos] <= '9' {
		p.pos++
	}
	return p.pos - start
}

func (p *parser) number() (string, *Error) {
	start := p.pos
	p.take('-')
	zero := p.pos < len(p.src) && p.src[p.pos] == '0'
	whole := p.digits()
	ok := whole == 1 || whole > 1 && !zero
	if ok && p.take('.') {
		ok = p.digits() > 0
	}
	if ok && (p.take('e') || p.take('E')) {
		if !p.take('+') {
			p.take('-')
		}
		ok = p.digits() > 0
	}
	if ok && p.pos < len(p.src) {
		switch p.src[p.pos] {
		case ' ', '\n', '\t', '\r', ',', ']', '}':
		default:
			ok = false
		}
	}
	text := p.src[start:p.pos]
	if !ok {
		return "", p.fail(start, "the number that begins with %.20q is not written as JSON wants it: digits, a point, digits", text)
	}
	return text, nil
}

// text parses a string; the position is at its opening quote.
func (p *parser) text() (string, *Error) {
	start := p.pos
	p.pos++
	for i := p.pos; i < len(p.src); i++ {
		switch c := p.src[i]; {
		case c == '"':
			s := p.src[p.pos:i]
			p.pos = i + 1
			return s, nil
		case c == '\\' || c < 0x20:
			return p.escaped(start, i)
		}
	}
	return "", p.fail(start, "the text that begins here has no closing quote")
}

// escaped goes on with a string from its first unusual byte.
func (p *parser) escaped(start, i int) (string, *Error) {
	b := append([]byte(nil), p.src[p.pos:i]...)
	for i < len(p.src) {
		c := p.src[i]
		switch {
		case c == '"':
			p.pos = i + 1
			return string(b), nil
		case c < 0x20:
			return "", p.fail(i, "a text holds the control character %#02x: end it with a quote, or write \\n for a new line", c)
		case c != '\\':
			b = append(b, c)
			i++
			continue
		}
		if i+1 >= len(p.src) {
			break
		}
		switch e := p.src[i+1]; e {
		case '"', '\\', '/':
			b = append(b, e)
		case 'b':
			b = append(b, '\b')
		case 'f':
			b = append(b, '\f')
		case 'n':
			b = append(b, '\n')
		case 'r':
			b = append(b, '\r')
		case 't':
			b = append(b, '\t')
		case 'u':
			r, n := p.codePoint(i)
			if n == 0 {
				return "", p.fail(i, "%.12q is not a character: write \\u and four hexadecimal digits, both halves of a pair together", p.src[i:min(i+12, len(p.src))])
			}
			b = utf8.AppendRune(b, r)
			i += n
			continue
		default:
			return "", p.fail(i, "a backslash must not stand before %.1q in a text: write \\\\ for a backslash", p.src[i+1:])
		}
		i += 2
	}
	return "", p.fail(start, "the text that begins here has no closing quote")
}

// codePoint reads \uXXXX, or two of them for a surrogate pair, and returns the
// bytes used; none for a mistake.
func (p *parser) codePoint(i int) (rune, int) {
	unit := func(i int) (rune, bool) {
		if i+6 > len(p.src) || p.src[i:i+2] != `\u` {
			return 0, false
		}
		v, err := strconv.ParseUint(p.src[i+2:i+6], 16, 16)
		return rune(v), err == nil
	}
	r, ok := unit(i)
	if !ok {
		return 0, 0
	}
	if !utf16.IsSurrogate(r) {
		return r, 6
	}
	low, ok := unit(i + 6)
	if r = utf16.DecodeRune(r, low); !ok || r == utf8.RuneError {
		return 0, 0
	}
	return r, 12
}
