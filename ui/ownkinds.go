package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/draft"
	"loomwright/schematic/edit"
	"loomwright/ui/action"
)

// ownGroup is the heading of the tray for the drawing's and the user's own kinds.
const ownGroup = "Of my own"

// readOwnKinds adds the kinds of the user's own library to the program's. Files
// that cannot be used are named in the error and left out.
func readOwnKinds(lib *schematic.Library, folder string) (*schematic.Library, error) {
	if folder == "" {
		return lib, nil
	}
	kinds, err := catalog.LoadOwn(os.DirFS(folder), lib)
	if err != nil {
		err = fmt.Errorf("some of your own part kinds in %s cannot be used:\n%w", filepath.Join(folder, catalog.OwnFolder), err)
	}
	return lib.WithLent(kinds...), err
}

// ownKinds returns the document's own kinds and those of the user's library that
// it does not carry, by title.
func (ed *Editor) ownKinds() []*schematic.Kind {
	doc := ed.doc()
	kinds := slices.Collect(doc.OwnKinds())
	for _, name := range ed.lib.Names() {
		if ed.lib.Lent(name) && !slices.ContainsFunc(kinds, func(k *schematic.Kind) bool { return k.Name == name }) {
			kinds = append(kinds, ed.lib.Kind(name))
		}
	}
	slices.SortStableFunc(kinds, func(a, b *schematic.Kind) int { return strings.Compare(kindTitle(a), kindTitle(b)) })
	return kinds
}

func kindTitle(k *schematic.Kind) string {
	if k.Title != "" {
		return k.Title
	}
	return k.Name
}

func (ed *Editor) kindActions() {
	any := func() bool { return len(ed.ownKinds()) > 0 }
	const menu = "Draw/Part kinds"
	ed.actions.Add(
		&action.Action{ID: "kind.new", Title: "New part kind…", Menu: menu, Words: "symbol component make define custom",
			Help: "Make a part kind: its pins, symbol, values and what it is electrically", Run: func() { ed.kindForm("New part kind", draft.New()) }},
		&action.Action{ID: "kind.copy", Title: "New part kind from a copy…", Menu: menu, Words: "symbol component derive custom like",
			Help: "Make a part kind that begins as a copy of another", Run: ed.copyKind},
		&action.Action{ID: "kind.edit", Title: "Edit a part kind…", Menu: menu, Enabled: any, Words: "symbol pins custom change own",
			Help: "Change a part kind of this drawing or of your own library", Run: ed.editKind},
		&action.Action{ID: "kind.delete", Title: "Delete a part kind…", Menu: menu, Enabled: any, Words: "remove own custom",
			Help: "Delete a part kind from this drawing, where no part is of it, or from your own library", Run: ed.deleteKind},
	)
}

func kindLine(k *schematic.Kind, run func()) chooserLine {
	return chooserLine{title: kindTitle(k), side: k.Group, run: run}
}

func (ed *Editor) copyKind() {
	ed.openChooser("Begin with a copy of", "Title of a part kind", func(text string) []chooserLine {
		var lines []chooserLine
		for _, k := range catalog.Search(ed.tray.library(), text) { // best first, as in the tray
			lines = append(lines, kindLine(k, func() { ed.kindForm("New part kind", draft.Of(k, true)) }))
		}
		return lines
	})
}

func (ed *Editor) editKind() {
	open := func(k *schematic.Kind) { ed.kindForm("Part kind "+kindTitle(k), draft.Of(k, false)) }
	if ps := ed.selectedParts(); len(ps) == 1 {
		if k := ed.doc().KindOf(ps[0]); k != nil && (k.ID != schematic.ID{}) {
			open(k)
			return
		}
	}
	var all []chooserLine
	for _, k := range ed.ownKinds() {
		all = append(all, kindLine(k, func() { open(k) }))
	}
	ed.openChooser("Edit a part kind of your own", "Title of a part kind", func(text string) []chooserLine { return narrow(all, text) })
}

// bringKind puts a kind of the user's library that was kept after the drawing
// was opened into the drawing, so that a part of it can be placed.
func (ed *Editor) bringKind(name string) {
	if k := ed.lib.Kind(name); k != nil && ed.doc().Kind(name) == nil {
		ed.do("take part kind "+kindTitle(k)+" along", func(tx *edit.Tx) error { return edit.SetKind(tx, k, edit.Renamed{}) })
	}
}
