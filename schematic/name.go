package schematic

import (
	"cmp"
	"strconv"
	"strings"
)

// NameOf returns the human name of an item: the designation of parts, wires,
// groups and looms, "" for items that have none of their own.
func NameOf(it Item) string {
	switch it := it.(type) {
	case *Part:
		return it.Name
	case *Wire:
		return it.Name
	case *Group:
		return it.Name
	case *Loom:
		return it.Name
	}
	return ""
}

// Describe returns the words by which a message names an item.
func Describe(it Item) string {
	switch it := it.(type) {
	case *Sheet:
		return "sheet " + strconv.Quote(it.Name)
	case *State:
		return "state " + strconv.Quote(it.Name)
	case *Kind:
		return "part kind " + strconv.Quote(it.Name)
	case *Note:
		return "note " + strconv.Quote(firstLine(it.Text))
	case *Info:
		return "document settings"
	case *Reading:
		return "reading of " + it.Date
	case *Acceptance:
		return "acceptance of " + strconv.Quote(it.Rule)
	}
	if it == nil {
		return "nothing"
	}
	return it.Key().Type.String() + " " + NameOf(it)
}

func firstLine(s string) string {
	s, _, _ = strings.Cut(s, "\n")
	return s
}

// FreeName returns the prefix with the lowest number from 1 that no item of
// the document and none of the names in taken bears.
func (d *Doc) FreeName(prefix string, taken map[string]bool) string {
	for n := 1; ; n++ {
		name := prefix + strconv.Itoa(n)
		if _, used := d.Named(name); !used && !taken[name] {
			return name
		}
	}
}

// CompareNames orders designations as people count: F2 before F10.
func CompareNames(a, b string) int {
	for a != "" && b != "" {
		na, ra := leadingNumber(a)
		nb, rb := leadingNumber(b)
		if na != "" && nb != "" {
			if c := compareDigits(na, nb); c != 0 {
				return c
			}
			a, b = ra, rb
			continue
		}
		if a[0] != b[0] {
			return int(a[0]) - int(b[0])
		}
		a, b = a[1:], b[1:]
	}
	return len(a) - len(b)
}

// CompareItems orders items by their designations, those of one designation by
// their keys.
func CompareItems[T Item](a, b T) int {
	return cmp.Or(CompareNames(NameOf(a), NameOf(b)), a.Key().Compare(b.Key()))
}

func leadingNumber(s string) (digits, rest string) {
	i := 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return s[:i], s[i:]
}

// compareDigits compares by value without converting: a name may hold more
// digits than an integer.
func compareDigits(a, b string) int {
	ta, tb := strings.TrimLeft(a, "0"), strings.TrimLeft(b, "0")
	if len(ta) != len(tb) {
		return len(ta) - len(tb)
	}
	if c := strings.Compare(ta, tb); c != 0 {
		return c
	}
	return len(a) - len(b)
}

// NextName returns the name that follows another as people count: 8 after 7,
// A25 after A24, B2 after B.
func NextName(name string) string {
	i := len(name)
	for i > 0 && len(name)-i < 9 && name[i-1] >= '0' && name[i-1] <= '9' {
		i--
	}
	n, err := strconv.Atoi(name[i:])
	if err != nil {
		n = 1
	}
	return name[:i] + strconv.Itoa(n+1)
}
