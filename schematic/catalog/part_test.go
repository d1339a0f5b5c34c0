package catalog

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

func pinNames(p *schematic.Part) string {
	var names []string
	for _, pin := range p.Pins {
		names = append(names, pin.Name)
	}
	return strings.Join(names, " ")
}

func TestWithPins(t *testing.T) {
	lib := library(t)
	for _, tc := range []struct {
		kind string
		n    int
		want string
		why  string
	}{
		{"connector-plug", 2, "1 2", "fewer cavities"},
		{"connector-plug", 6, "1 2 3 4 5 6", "more cavities"},
		{"connector-plug", 0, "1", "at least one"},
		{"fuse-block-regular", 6, "in 1 2 3 4 5 6", "the feed is not counted"},
		{"fuse-block-regular", 1, "in 1", "the feed stays"},
		{"bus-bar", 3, "1 2 3", ""},
		{"relay-make", 5, "", "fixed pins cannot be counted"},
	} {
		t.Run(tc.kind, func(t *testing.T) {
			k := lib.Kind(tc.kind)
			p := New(k, "X1")
			before := pinNames(p)
			require.Equal(t, tc.want, pinNames(WithPins(k, p, tc.n)), tc.why)
			require.Equal(t, before, pinNames(p), "the given part is untouched")
		})
	}
	unit := lib.Kind("control-unit")
	p := WithPins(unit, New(unit, "A1"), 64)
	require.Len(t, p.Pins, 64)
	require.Equal(t, "unused", p.Pins[63].Role)
	require.Len(t, WithPins(unit, p, 1e6).Pins, MaxPins)
}

func TestWithPinsKeepsWhatPinsHold(t *testing.T) {
	k := library(t).Kind("fuse-block-regular")
	p := New(k, "F1")
	p.Pins[1].Title, p.Pins[1].Values = "fan", map[string]float64{"amp": 20}
	q := WithPins(k, p, 8)
	require.Equal(t, p.Pins[1], q.Pins[1])
	require.Empty(t, q.Pins[8].Title)
	q.Pins[1].Values["amp"] = 5
	require.Equal(t, 20.0, p.Pins[1].Values["amp"], "no shared maps")
	// A number already taken by a renamed pin is passed over.
	p.Pins[4].Name = "7"
	require.Equal(t, "in 1 2 3 7 4 5", pinNames(WithPins(k, p, 6)))
}

func TestCavitiesMayHaveLetters(t *testing.T) {
	k := library(t).Kind("connector-plug")
	p := New(k, "X1")
	require.Equal(t, len(p.Pins), Counted(k, p))
	p = WithPins(k, p, 2)
	p.Pins[0].Name, p.Pins[1].Name = "A7", "A8"
	require.Equal(t, 2, Counted(k, p))
	require.Equal(t, "A7 A8 A9 A10", pinNames(WithPins(k, p, 4)))
	require.Equal(t, "A7", pinNames(WithPins(k, p, 1)))
	block := library(t).Kind("fuse-block-regular")
	f := New(block, "F1")
	require.Equal(t, len(f.Pins)-1, Counted(block, f), "the feed is not counted")
}

func TestNewPartDoesNotShareWithItsKind(t *testing.T) {
	k := library(t).Kind("connector-plug")
	a := New(k, "X1")
	a.Pins[0].Name = "changed"
	require.Equal(t, "1", k.Pins[0].Name)
	require.Empty(t, New(library(t).Kind("lamp"), "E1").Pins, "fixed pins stay with the kind")
}
