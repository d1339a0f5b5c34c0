package catalog

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

func found(lib *schematic.Library, text string) []string {
	var names []string
	for _, k := range Search(lib, text) {
		names = append(names, k.Name)
	}
	return names
}

func TestSearchByTradeWords(t *testing.T) {
	lib := library(t)
	for _, tc := range []struct{ text, first, why string }{
		{"relay", "relay-make", "the plain kind before its variants"},
		{"RELAY diode", "relay-make-diode", "case does not matter, all words count"},
		{"change-over relay", "relay-change-over", "word order does not matter"},
		{"87a", "relay-change-over", "terminal numbers"},
		{"ECU", "control-unit", "what people call it"},
		{"fuse box", "fuse-block-regular", "trade word; alike kinds by the shorter title"},
		{"earth", "ground-body", "British for ground"},
		{"fan", "radiator-fan", ""},
		{"pump", "fuel-pump", ""},
		{"ignition switch", "switch-ignition", ""},
		{"headlight", "lamp", ""},
		{"dipped", "lamp-two-filament", ""},
		{"MAP", "sensor-pressure", ""},
		{"knock", "sensor-knock", ""},
		{"termin 120", "terminator", "beginnings of words"},
		{"Réläy", "relay-make", "accents do not matter"},
		{"re\u0301lay", "relay-make", "nor accents written apart"},
		{"splice", "splice", ""},
		{"battery", "battery", "the thing itself before what goes with it"},
		{"horn", "horn", "not the push button for it"},
		{"alternator", "alternator", ""},
		{"B+", "alternator", "terminal letters"},
		{"twist potentiometer", "", "every word must occur"},
	} {
		t.Run(tc.text, func(t *testing.T) {
			names := found(lib, tc.text)
			if tc.first == "" {
				require.Empty(t, names)
				return
			}
			require.NotEmpty(t, names)
			require.Equal(t, tc.first, names[0], "%s: %v", tc.why, names)
		})
	}
}

func TestSearchForNothingListsAll(t *testing.T) {
	lib := library(t)
	var tray []string
	for _, g := range Groups(lib) {
		for _, k := range g.Kinds {
			tray = append(tray, k.Name)
		}
	}
	require.Equal(t, tray, found(lib, " \t"))
	require.Len(t, tray, len(lib.Names()))
	require.Empty(t, Search(nil, "fuse"))
}

// Everything is found by its own title.
func TestEveryKindIsFoundByItsTitle(t *testing.T) {
	lib := library(t)
	eachKind(t, func(t *testing.T, k *schematic.Kind) {
		require.Equal(t, k.Name, found(lib, k.Title)[0])
	})
}

func TestGroupsAreInOrder(t *testing.T) {
	foreign := &schematic.Kind{Name: "z", Title: "Z", Group: "A group of the user"}
	lib := library(t)
	kinds := []*schematic.Kind{foreign}
	for _, n := range lib.Names() {
		kinds = append(kinds, lib.Kind(n))
	}
	var names []string
	for _, g := range Groups(schematic.NewLibrary(kinds...)) {
		names = append(names, g.Name)
		require.True(t, slices.IsSortedFunc(g.Kinds, func(a, b *schematic.Kind) int {
			if a.Title < b.Title {
				return -1
			}
			return 1
		}))
	}
	require.Equal(t, append(slices.Clone(order), foreign.Group), names)
}

func TestFold(t *testing.T) {
	require.Equal(t, "strasse uber cafe lodz", fold("Straße ÜBER Café Łódź"))
}
