package ui

import (
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// wordTick says whether the labels of wires tell one thing.
func (d *details) wordTick(name string, word schematic.WireWord) control {
	return d.newTick(name, func() bool { return slices.Contains(d.ed.doc().Info().LabelWords(), word) }, func(on bool) {
		d.ed.report(d.ed.try("choose what is written on wires", func(tx *edit.Tx) error {
			return edit.SetInfo(tx, func(i *schematic.Info) { i.WireLabel = withWord(i.LabelWords(), word, on) })
		}))
	})
}

// withWord returns the words of a label with one of them added or left out.
func withWord(words []schematic.WireWord, word schematic.WireWord, on bool) []schematic.WireWord {
	var out []schematic.WireWord
	for _, w := range schematic.WireWords() {
		if w == word && on || w != word && slices.Contains(words, w) {
			out = append(out, w)
		}
	}
	switch {
	case len(out) == 0:
		return []schematic.WireWord{schematic.WordNone}
	case slices.Equal(out, (&schematic.Info{}).LabelWords()):
		return nil
	}
	return out
}
