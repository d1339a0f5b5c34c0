package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2/container"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
	"loomwright/ui/view"
)

// askInsert lets the user choose a harness file to insert.
func (ed *Editor) askInsert() {
	at := ed.aimPoint().Snap(geom.Grid)
	ed.askPathToOpen("Insert a harness from a file", func(path string) { ed.readHarness(path, at) })
}

// readHarness reads a file beside the window and asks how to insert it.
func (ed *Editor) readHarness(path string, at geom.Point) {
	busy := ed.busy("Opening " + filepath.Base(path))
	ed.crew.spawn(func() {
		src, err := loomfile.Load(path, ed.lib)
		ed.crew.post(func() {
			busy()
			if err != nil {
				ed.reportAs("Could not open "+filepath.Base(path), err)
				return
			}
			ed.askHow(strings.TrimSuffix(filepath.Base(path), fileEnding), src, at)
		})
	})
}

// askHow asks where a harness goes and what comes along.
func (ed *Editor) askHow(name string, src *schematic.Doc, at geom.Point) {
	sheets := edit.DrawnSheets(src)
	ways := []string{"On this sheet, at the pointer", "As a new sheet"}
	if len(sheets) > 1 {
		ways = []string{fmt.Sprintf("As %d new sheets", len(sheets))}
	}
	where := newPick(ed.typedKey, ways, nil)
	where.Selected = ways[0]
	if len(sheets) == 1 {
		// Over what is drawn already it would be a muddle: a sheet of its own, unless asked for.
		area := view.Drawn(src, sheets[0].ID)
		if area.Add(at.Sub(area.Center())).Touches(view.Drawn(ed.doc(), ed.sheet)) {
			where.Selected = ways[1]
		}
	}
	var missing []string
	for _, s := range src.States() {
		if !slices.ContainsFunc(ed.doc().States(), func(t *schematic.State) bool { return t.Name == s.Name }) {
			missing = append(missing, s.Name)
		}
	}
	states := newTicked(ed.typedKey, "Its operating states that are missing here: "+nameList(missing, 6), nil)
	states.Checked = true
	if len(missing) == 0 {
		states.Text = "Its operating states are all here already"
		states.Disable()
	}
	var all []string
	for _, t := range []schematic.ItemType{schematic.TypePart, schematic.TypeWire, schematic.TypeNote, schematic.TypeLoom} {
		if n := src.Len(t); n > 0 {
			all = append(all, count(n, t.String()))
		}
	}
	sum := strings.Join(all, ", ") + "."
	about := "Designations that are taken get the next free number. Part kinds of one name and content are used once, others of that name are renamed. " +
		"What its operating states switch goes to the states of the same name. Title block, limits, readings and accepted findings stay behind, and nothing counts as built yet."
	note := complaint()
	b := &box{title: "Insert " + name}
	b.size.Width = 560
	b.content = container.NewVBox(wrapped(sum), row("Where", where), states, remark(about).CanvasObject, note)
	b.answers = []answer{{text: "Insert", main: true, stays: true, deed: func() {
		in := edit.HarnessPlace{States: states.Checked && len(missing) > 0}
		if len(sheets) == 1 && where.Selected == ways[0] {
			in.Sheet = ed.sheet
			in.Offset = at.Sub(view.Drawn(src, sheets[0].ID).Center()).Snap(geom.Grid)
		}
		done, err := ed.insert(name, src, in)
		if err != nil {
			b.complain(note, err)
			return
		}
		b.close()
		ed.sayInserted(done)
	}}, {text: "Go back"}}
	ed.openBox(b)
}

// insert brings a harness in as one step and shows it.
func (ed *Editor) insert(name string, src *schematic.Doc, in edit.HarnessPlace) (edit.HarnessReport, error) {
	var done edit.HarnessReport
	err := ed.try("insert "+name, func(tx *edit.Tx) (err error) {
		done, err = edit.InsertHarness(tx, src, in)
		return err
	})
	if err != nil {
		return done, err
	}
	if sel := ed.sess.Selection(); len(sel) > 0 {
		ed.jump(sel...)
	}
	return done, nil
}

// sayInserted tells what came along, and, where there is more to say than fits
// a line, in a box.
func (ed *Editor) sayInserted(done edit.HarnessReport) {
	ed.status.tell(fmt.Sprintf("inserted %s and %s", count(done.Parts, "part"), count(done.Wires, "wire")))
	var lines []string
	say := func(head string, list []string, most int) {
		if len(list) > most {
			list = append(slices.Clone(list[:most]), fmt.Sprintf("and %d more", len(list)-most))
		}
		if len(list) > 0 {
			lines = append(lines, head+"\n  "+strings.Join(list, "\n  "))
		}
	}
	say("Part kinds renamed:", done.Kinds, 8)
	say("Designations renumbered:", done.Renamed, 16)
	say("Left behind:", done.Left, 8)
	if len(lines) > 0 {
		ed.question("Inserted", strings.Join(lines, "\n\n"), answer{text: "Close", main: true})
	}
}

// saveSelection writes the selection as a harness file of its own.
func (ed *Editor) saveSelection() {
	keys := ed.sess.Selection()
	path := filepath.Join(ed.inFolder(), "harness"+fileEnding)
	ed.pathDialog("Save the selection as a harness", "Save", path, func(from string, found func(string), _ func()) {
		ed.browseSave(from, found)
	}, func(path string) (string, error) {
		path, err := harnessTarget(path)
		if err != nil {
			return "", err
		}
		if path == ed.file.path {
			return "", errors.New("that is the file of this drawing: choose another name")
		}
		return path, nil
	}, func(path string) {
		write := func() { ed.writeSelection(path, keys) }
		if _, err := os.Stat(path); err == nil {
			ed.question("Replace the file?", path+" is there already.",
				answer{text: "Replace it", deed: write}, answer{text: "Go back", main: true})
			return
		}
		write()
	})
}

func (ed *Editor) writeSelection(path string, keys []schematic.Key) {
	piece := edit.Extract(ed.doc(), keys)
	busy := ed.busy("Saving " + filepath.Base(path))
	ed.crew.spawn(func() {
		err := loomfile.Save(path, piece)
		ed.crew.post(func() {
			busy()
			if err != nil {
				ed.reportAs("Not saved", err)
				return
			}
			ed.status.tell(fmt.Sprintf("saved %s and %s to %s", count(piece.Len(schematic.TypePart), "part"), count(piece.Len(schematic.TypeWire), "wire"), path))
		})
	})
}
