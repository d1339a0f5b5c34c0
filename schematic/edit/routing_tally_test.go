package edit_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// single takes a step "wires A1.1-8 A2.8-1" apart into one for each wire; others
// stay as they are.
func single(t *testing.T, f []string) [][]string {
	if len(f) == 0 {
		return nil
	}
	if f[0] != "wires" {
		return [][]string{f}
	}
	one, two := several(t, f[1]), several(t, f[2])
	require.Len(t, two, len(one), "%v", f)
	var out [][]string
	for i := range one {
		at := i
		if len(f) > 3 { // mixed: from both ends and the middle by turns
			at = []int{i / 3, len(one) - 1 - i/3, 0}[i%3]
			if i%3 == 2 {
				at = (len(one)+2)/3 + i/3
			}
		}
		out = append(out, []string{"wire", one[at], two[at]})
	}
	return out
}

// several are the pins "A1.3", "A1.4", "A1.5" of "A1.3-5".
func several(t *testing.T, word string) (all []string) {
	name, pins, _ := strings.Cut(word, ".")
	one, two, many := strings.Cut(pins, "-")
	if !many {
		return []string{word}
	}
	from, err := strconv.Atoi(one)
	require.NoError(t, err)
	to, err := strconv.Atoi(two)
	require.NoError(t, err)
	step := 1
	if to < from {
		step = -1
	}
	for n := from; n != to+step; n += step {
		all = append(all, name+"."+strconv.Itoa(n))
	}
	return all
}

// tally counts what makes a sheet hard to read.
type tally struct {
	crossings, bends int
	length           int // in grid steps
	close            int // length beside another wire, closer than two grid steps
}

func (n tally) String() string {
	return fmt.Sprintf("crossings %d, bends %d, length %d, close %d", n.crossings, n.bends, n.length, n.close)
}

// tallyOf counts over some wires of a document. Wires that part at a pin do not
// cross there.
func tallyOf(d *schematic.Doc, wires []*schematic.Wire) (n tally) {
	paths := make([]geom.Path, len(wires))
	for i, w := range wires {
		paths[i] = d.Path(w)
		n.bends += len(paths[i]) - 2
		for j := 1; j < len(paths[i]); j++ {
			r := geom.RectOf(paths[i][j-1], paths[i][j])
			n.length += (r.Width() + r.Height()) / geom.Grid
		}
	}
	for i := range paths {
		for j := range i {
			n.meet(paths[i], paths[j])
		}
	}
	n.close /= geom.Grid
	return n
}

func (n *tally) meet(p, q geom.Path) {
	for i := 1; i < len(p); i++ {
		for j := 1; j < len(q); j++ {
			a, b := geom.RectOf(p[i-1], p[i]), geom.RectOf(q[j-1], q[j])
			levelA, levelB := a.Min.Y == a.Max.Y, b.Min.Y == b.Max.Y
			if levelA && levelB {
				if off := a.Min.Y - b.Min.Y; off != 0 && max(off, -off) < 2*geom.Grid {
					n.close += max(0, min(a.Max.X, b.Max.X)-max(a.Min.X, b.Min.X))
				}
				continue
			}
			if !levelA && !levelB {
				if off := a.Min.X - b.Min.X; off != 0 && max(off, -off) < 2*geom.Grid {
					n.close += max(0, min(a.Max.Y, b.Max.Y)-max(a.Min.Y, b.Min.Y))
				}
				continue
			}
			if !levelA {
				a, b = b, a
			}
			if b.Min.X > a.Min.X && b.Min.X < a.Max.X && a.Min.Y > b.Min.Y && a.Min.Y < b.Max.Y {
				n.crossings++
			}
		}
	}
}

// limits holds the sheet to what its file says.
func (c *routingCase) limits(t *testing.T, text string) {
	n := tallyOf(c.sess.Doc(), c.wires())
	t.Log(n)
	for line := range strings.Lines(text) {
		f := strings.Fields(line)
		require.Len(t, f, 2, line)
		most, err := strconv.Atoi(f[1])
		require.NoError(t, err)
		got, ok := map[string]int{"crossings": n.crossings, "bends": n.bends, "close": n.close}[f[0]]
		require.True(t, ok, line)
		if got > most {
			t.Errorf("%d %s, and a careful hand needs no more than %d", got, f[0], most)
		}
	}
}
