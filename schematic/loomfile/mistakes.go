package loomfile

import (
	"slices"
	"strconv"

	"loomwright/schematic/canon"
)

// mistakes collects what is wrong with a file. Words and places are made for
// those that are shown only: finding a line takes a walk through the file, and
// a file may hold a mistake in each of a million values.
type mistakes []mistake

type mistake struct {
	at     *canon.Node
	path   string
	format string
	args   []any
}

func (m *mistakes) add(at *canon.Node, path, format string, args ...any) {
	*m = append(*m, mistake{at, path, format, args})
}

// err returns [*Mistakes] in the order of the file, or nil for none.
func (m mistakes) err(t *canon.Tree) error {
	if len(m) == 0 {
		return nil
	}
	slices.SortStableFunc(m, func(a, b mistake) int { return a.at.Offset() - b.at.Offset() })
	shown := m[:min(len(m), maxShown)]
	out := &Mistakes{More: len(m) - len(shown)}
	for _, x := range shown {
		out.List = append(out.List, t.Errorf(x.at, x.path, x.format, x.args...))
	}
	return out
}

// line writes the line of a value when a mistake is shown.
type line struct {
	t  *canon.Tree
	at *canon.Node
}

func (l line) String() string { return strconv.Itoa(l.t.Line(l.at)) }
