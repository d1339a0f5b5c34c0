package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/draft"
	"loomwright/schematic/edit"
)

// keepKind writes a kind into the user's own library and makes it known in all
// windows. Was is the name it had there before: it goes, with its file when
// nothing else is in it.
func (ed *Editor) keepKind(k *schematic.Kind, was string) error {
	if ed.store.folder == "" {
		return errors.New("there is no folder for settings on this system, and so none for your own part kinds")
	}
	switch have := ed.lib.Kind(k.Name); {
	case have != nil && !ed.lib.Lent(k.Name):
		return fmt.Errorf("the program has a part kind %q itself: choose another title", kindTitle(have))
	case have != nil && k.Name != was:
		return fmt.Errorf("your own library has a part kind %q already: choose another title", kindTitle(have))
	}
	if err := os.MkdirAll(filepath.Join(ed.store.folder, catalog.OwnFolder), 0o755); err != nil {
		return fmt.Errorf("your part kind could not be kept: %w", err)
	}
	file, holds := catalog.FindOwn(os.DirFS(ed.store.folder), was)
	i := slices.IndexFunc(holds, func(h *schematic.Kind) bool { return h.Name == was })
	if len(holds) > 1 { // a file of several: the kind stays there
		holds[i] = k
		if err := ed.writeOwn(file, holds...); err != nil {
			return err
		}
		ed.lend(k, was)
		return nil
	}
	to := catalog.OwnFolder + "/" + draft.NameFrom(k.Name) + ".json"
	for n := 2; to != file && ed.hasOwn(to); n++ {
		to = fmt.Sprintf("%s/%s-%d.json", catalog.OwnFolder, draft.NameFrom(k.Name), n)
	}
	if err := ed.writeOwn(to, k); err != nil {
		return err
	}
	if file != "" && file != to {
		if err := os.Remove(filepath.Join(ed.store.folder, filepath.FromSlash(file))); err != nil {
			return fmt.Errorf("your part kind is kept, but its old file is still there: %w", err)
		}
	}
	ed.lend(k, was)
	return nil
}

func (ed *Editor) hasOwn(file string) bool {
	_, err := os.Lstat(filepath.Join(ed.store.folder, filepath.FromSlash(file)))
	return err == nil
}

// writeOwn writes a file of the user's own library, whole or not at all.
func (ed *Editor) writeOwn(file string, kinds ...*schematic.Kind) error {
	data, err := catalog.EncodeOwn(kinds...)
	if err != nil {
		return err
	}
	path := filepath.Join(ed.store.folder, filepath.FromSlash(file))
	tmp := path + ".new"
	if err = os.WriteFile(tmp, data, 0o644); err == nil {
		err = os.Rename(tmp, path)
	}
	if err != nil {
		os.Remove(tmp)
		return fmt.Errorf("your part kind could not be kept: %w", err)
	}
	return nil
}

// dropKind takes a kind out of the user's own library. Drawings that use it
// carry it along and stay as they are.
func (ed *Editor) dropKind(name string) error {
	file, holds := catalog.FindOwn(os.DirFS(ed.store.folder), name)
	if file == "" {
		return fmt.Errorf("no file of your own library holds the part kind %q any more", name)
	}
	holds = slices.DeleteFunc(holds, func(k *schematic.Kind) bool { return k.Name == name })
	if len(holds) > 0 {
		if err := ed.writeOwn(file, holds...); err != nil {
			return err
		}
	} else if err := os.Remove(filepath.Join(ed.store.folder, filepath.FromSlash(file))); err != nil {
		return fmt.Errorf("your part kind could not be deleted: %w", err)
	}
	ed.lend(nil, name)
	return nil
}

// lend makes a kind of the user's library known in all windows, in place of the
// one that was called so, and without a kind makes that one forgotten. The
// drawings that are open come to it when they use it.
func (ed *Editor) lend(k *schematic.Kind, was string) {
	var own, program []*schematic.Kind
	for _, name := range ed.prog.lib.Names() {
		switch have := ed.prog.lib.Kind(name); {
		case !ed.prog.lib.Lent(name):
			program = append(program, have)
		case name != was && (k == nil || name != k.Name):
			own = append(own, have)
		}
	}
	if k != nil {
		c := *k
		c.ID = schematic.ID{}
		own = append(own, &c)
	}
	ed.prog.lib = schematic.NewLibrary(program...).WithLent(own...)
	ed.prog.each(func(o *Editor) {
		o.lib = ed.prog.lib
		o.tray.followKinds()
	})
}

// deleteKind asks which kind to delete.
func (ed *Editor) deleteKind() {
	if ps := ed.selectedParts(); len(ps) == 1 {
		if k := ed.doc().KindOf(ps[0]); k != nil && (k.ID != schematic.ID{}) {
			ed.askDeleteKind(k)
			return
		}
	}
	var all []chooserLine
	for _, k := range ed.ownKinds() {
		all = append(all, kindLine(k, func() { ed.askDeleteKind(k) }))
	}
	ed.openChooser("Delete a part kind of your own", "Title of a part kind", func(text string) []chooserLine { return narrow(all, text) })
}

// askDeleteKind says where a kind is and offers to delete it there.
func (ed *Editor) askDeleteKind(k *schematic.Kind) {
	var lines []string
	var answers []answer
	fromDrawing := func() {
		ed.do("delete part kind "+kindTitle(k), func(tx *edit.Tx) error { return edit.DeleteKind(tx, k.ID) })
		ed.tray.followKinds()
	}
	inDrawing := k.ID != schematic.ID{}
	lent := ed.lib.Lent(k.Name)
	used := edit.PartsOfKind(ed.doc(), k.Name)
	switch {
	case inDrawing && len(used) > 0:
		var names []string
		for _, p := range used {
			names = append(names, p.Name)
		}
		what, them := fmt.Sprintf("%d parts are", len(used)), "them"
		if len(used) == 1 {
			what, them = "1 part is", "it"
		}
		lines = append(lines, fmt.Sprintf("It cannot go from this drawing: %s of it (%s). Delete %s first, or give %s another kind: in the table of parts, under Kind.", what, nameList(names, 8), them, them))
	case inDrawing:
		lines = append(lines, "No part of this drawing is of it.")
		answers = append(answers, answer{text: "Delete from the drawing", deed: fromDrawing})
	}
	if lent {
		lines = append(lines, "It is in your own library. Drawings that use it carry it along and stay as they are.")
		answers = append(answers, answer{text: "Delete from my library", deed: func() { ed.report(ed.dropKind(k.Name)) }})
	}
	if len(answers) == 2 {
		answers = append([]answer{{text: "Delete from both", deed: func() {
			fromDrawing()
			ed.report(ed.dropKind(k.Name))
		}}}, answers...)
	}
	end := "Go back"
	if len(answers) == 0 {
		end = "Close"
	}
	answers = append(answers, answer{text: end, main: true})
	ed.question("Delete part kind "+kindTitle(k)+"?", strings.Join(lines, "\n\n"), answers...)
}
