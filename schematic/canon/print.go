package canon

// lineWidth is how wide a value may be, with its indent, to stay on one line.
const lineWidth = 100

// alwaysBroken is the depth down to which lists and objects are broken however
// short they are: adding a part must not rewrite the line of another.
const alwaysBroken = 1

// appendCompact appends the value without any space.
func appendCompact(b []byte, n *Node) []byte { return appendInline(b, n, "", "") }

func appendInline(b []byte, n *Node, comma, colon string) []byte {
	switch n.Kind {
	case Null:
		return append(b, "null"...)
	case Text:
		return appendText(b, n.Text)
	case List, Object:
		b = append(b, "[{"[n.Kind-List])
		for i := range n.Kids {
			if i > 0 {
				b = append(append(b, ','), comma...)
			}
			if n.Kind == Object {
				b = append(append(appendText(b, n.Kids[i].Name), ':'), colon...)
			}
			b = appendInline(b, &n.Kids[i], comma, colon)
		}
		return append(b, "]}"[n.Kind-List])
	}
	return append(b, n.Text...)
}

// measure sets the width of every value's form on one line.
func measure(n *Node) int {
	w := 0
	switch n.Kind {
	case Null:
		w = len("null")
	case Text:
		w = textWidth(n.Text)
	case List, Object:
		w = 2 + 2*max(0, len(n.Kids)-1)
		for i := range n.Kids {
			w += measure(&n.Kids[i])
			if n.Kind == Object {
				w += textWidth(n.Kids[i].Name) + 2
			}
		}
	default:
		w = len(n.Text)
	}
	n.width = int32(min(w, 1<<30))
	return int(n.width)
}

// layout appends the value; used is how much of its line is taken before it.
func layout(b []byte, n *Node, depth, used int) []byte {
	if len(n.Kids) == 0 || depth > alwaysBroken && used+int(n.width)+1 <= lineWidth {
		return appendInline(b, n, " ", " ")
	}
	b = append(b, "[{"[n.Kind-List])
	for i := range n.Kids {
		kid := &n.Kids[i]
		if i > 0 {
			b = append(b, ',')
		}
		b = newline(b, depth+1)
		used := 2 * (depth + 1)
		if n.Kind == Object {
			b = append(appendText(b, kid.Name), ": "...)
			used += textWidth(kid.Name) + 2
		}
		b = layout(b, kid, depth+1, used)
	}
	return append(newline(b, depth), "]}"[n.Kind-List])
}

func newline(b []byte, depth int) []byte {
	b = append(b, '\n')
	for range depth {
		b = append(b, "  "...)
	}
	return b
}

const hexDigits = "0123456789abcdef"

// appendText appends a quoted string, which is UTF-8. Only what JSON demands is escaped.
func appendText(b []byte, s string) []byte {
	b = append(b, '"')
	from := 0
	for i := range len(s) {
		c := s[i]
		if c >= 0x20 && c != '"' && c != '\\' {
			continue
		}
		b = append(b, s[from:i]...)
		from = i + 1
		switch c {
		case '"', '\\':
			b = append(b, '\\', c)
		case '\n':
			b = append(b, `\n`...)
		case '\r':
			b = append(b, `\r`...)
		case '\t':
			b = append(b, `\t`...)
		default:
			b = append(b, `\u00`...)
			b = append(b, hexDigits[c>>4], hexDigits[c&15])
		}
	}
	return append(append(b, s[from:]...), '"')
}

// textWidth is the length of the quoted string in bytes.
func textWidth(s string) int {
	w := len(s) + 2
	for i := range len(s) {
		c := s[i]
		if c >= 0x20 && c != '"' && c != '\\' {
			continue
		}
		w++
		if c < 0x20 && c != '\n' && c != '\r' && c != '\t' {
			w += 4
		}
	}
	return w
}
