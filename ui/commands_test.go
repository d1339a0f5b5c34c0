package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// menuItems lists every item of the window's menus by label.
func menuItems(m *fyne.MainMenu) map[string]*fyne.MenuItem {
	items := map[string]*fyne.MenuItem{}
	var add func(*fyne.Menu)
	add = func(menu *fyne.Menu) {
		for _, it := range menu.Items {
			items[it.Label] = it
			if it.ChildMenu != nil {
				add(it.ChildMenu)
			}
		}
	}
	for _, menu := range m.Items {
		add(menu)
	}
	return items
}

func TestEveryMenuCommandIsWired(t *testing.T) {
	r := newRig(t, lampsFile)
	items := menuItems(r.win.MainMenu())
	n := 0
	for _, a := range r.actions.All() {
		assert.NotEmpty(t, a.Help, "%s says what it does", a.ID)
		if a.Menu == "" {
			continue
		}
		n++
		it := items[a.TitleNow()]
		require.NotNil(t, it, a.ID)
		assert.NotNil(t, it.Action, a.ID)
		assert.Equal(t, !a.IsEnabled(), it.Disabled, a.ID)
		if len(a.Keys) > 0 {
			require.NotNil(t, it.Shortcut, a.ID)
			assert.Equal(t, shortcut(a.Keys[0]).ShortcutName(), it.Shortcut.ShortcutName())
		}
	}
	assert.Greater(t, n, 40)
	ran := false
	r.actions.Find("view.fit").Run = func() { ran = true }
	items["Show the whole sheet"].Action()
	assert.True(t, ran, "a menu item runs its command")
}

func TestMenusFollowWhatIsGoingOn(t *testing.T) {
	r := newRig(t, lampsFile)
	assert.True(t, r.menu.item["edit.undo"].Disabled)
	assert.True(t, r.menu.item["edit.delete"].Disabled)
	r.choose(r.named("G1"))
	assert.False(t, r.menu.item["edit.delete"].Disabled)
	r.key(fyne.KeyUp)
	assert.Equal(t, "Undo: move G1", r.menu.item["edit.undo"].Label)
	r.do("edit.undo")
	assert.Equal(t, "Redo: move G1", r.menu.item["edit.redo"].Label)
	assert.True(t, r.menu.item["tool.select"].Checked)
	r.key("W")
	assert.False(t, r.menu.item["tool.select"].Checked)
	assert.True(t, r.menu.item["tool.wire"].Checked)
}

// The menu gets Ctrl+C before a text field does; it must hand it on.
func TestEditingKeysBelongToTheFieldThatHasTheKeyboard(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("G1"))
	e := newEntry(nil)
	r.openBox(&box{title: "box", content: e, answers: []answer{{text: "Close", main: true}}})
	e.SetText("some words")
	r.win.Canvas().Focus(e)
	r.do("edit.all")
	r.do("edit.copy")
	assert.Equal(t, "some words", r.app.Clipboard().Content())
	assert.Equal(t, []string{"G1"}, r.selected(), "nothing else was selected on the sheet")
	r.do("edit.cut")
	assert.Empty(t, e.Text)
	r.do("edit.paste")
	assert.Equal(t, "some words", e.Text)
	r.do("edit.undo")
	assert.NotEqual(t, "some words", e.Text)
	assert.False(t, r.sess.Modified(), "the drawing has not changed")
}

func TestCopyAndPasteThroughTheClipboard(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("K1"), r.named("M1"), r.named("W5"))
	r.do("edit.copy")
	text := r.app.Clipboard().Content()
	require.NotEmpty(t, text)
	r.do("edit.paste")
	assert.Equal(t, []string{"K2", "M2", "W16"}, r.selected(), "what is pasted is selected and has names of its own")
	r.do("edit.undo")

	other := newRig(t, "")
	other.app.Clipboard().SetContent(text)
	other.do("edit.paste")
	assert.Equal(t, 2, other.doc().Len(schematic.TypePart), "another window takes it too")
	other.app.Clipboard().SetContent("hello")
	other.do("edit.paste")
	assert.True(t, other.boxOpen(), "something else is refused in words")
	other.tap("Write it on the sheet")
	assert.Equal(t, 1, other.doc().Len(schematic.TypeNote), "or becomes a note")
	for _, content := range []string{"", "  \n", strings.Repeat("long ", 300), text[:len(text)/2], strings.Replace(text, `"version": 1`, `"version": 99`, 1)} {
		doc := other.doc()
		other.app.Clipboard().SetContent(content)
		other.do("edit.paste")
		require.Len(t, other.boxes, 1, "%.30q", content)
		assert.Len(t, other.boxes[0].answers, 1, "%.30q is no text for a note", content)
		other.boxes[0].close()
		assert.Same(t, doc, other.doc())
	}
}

func TestCopyTellsWhatItLeavesBehind(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("M1"))
	r.do("edit.copy")
	n := 0
	for w := range r.doc().Wires() {
		if w.A.Part == r.part("M1").ID || w.B.Part == r.part("M1").ID {
			n++
		}
	}
	assert.Equal(t, fmt.Sprintf("copied 1 part; left behind: %d wires to other parts", n), r.status.hint.full)
	r.do("select.connected")
	r.do("edit.copy")
	assert.Equal(t, fmt.Sprintf("copied 1 part, %d wires; loose at parts not copied: %d wire ends", n, n), r.status.hint.full)
}

func TestPasteInPlace(t *testing.T) {
	r := newRig(t, lampsFile)
	start := r.placeOf("M1")
	r.choose(r.named("M1"))
	r.do("edit.copy")
	r.do("edit.pasteinplace")
	assert.Equal(t, start.Add(geom.Pt(50, 50)), r.placeOf("M2"), "beside what lies there")
	r.do("edit.undo")
	r.do("sheet.add")
	r.do("edit.pasteinplace")
	assert.Equal(t, start, r.placeOf("M2"), "on another sheet at the same place")
	assert.Equal(t, r.sheet, r.part("M2").Views[0].Sheet)
}

func TestCutDuplicateSelectAll(t *testing.T) {
	r := newRig(t, lampsFile)
	parts := r.doc().Len(schematic.TypePart)
	r.choose(r.named("M1"))
	r.do("edit.cut")
	assert.Equal(t, parts-1, r.doc().Len(schematic.TypePart))
	assert.Equal(t, "cut M1", r.sess.UndoLabel())
	r.do("edit.paste")
	assert.Equal(t, parts, r.doc().Len(schematic.TypePart))
	r.do("edit.duplicate")
	assert.Equal(t, parts+1, r.doc().Len(schematic.TypePart))
	r.do("edit.all")
	assert.Greater(t, len(r.sess.Selection()), 15)
	for _, k := range r.sess.Selection() {
		p, w := r.doc().Part(k.ID), r.doc().Wire(k.ID)
		if p != nil {
			assert.Contains(t, sheetsOf(p), r.sheet)
		}
		if w != nil {
			assert.Equal(t, r.sheet, w.Sheet)
		}
	}
}

func sheetsOf(p *schematic.Part) []schematic.ID {
	var ids []schematic.ID
	for _, v := range p.Views {
		ids = append(ids, v.Sheet)
	}
	return ids
}

func TestSheets(t *testing.T) {
	r := newRig(t, lampsFile)
	first := r.sheet
	r.do("sheet.next")
	lamps := r.sheet
	require.NotEqual(t, first, lamps)
	assert.True(t, r.tabs.all[1].active)
	r.sheetView.zoom(2)
	zoom := r.sheetView.cam
	r.do("sheet.prev")
	r.do("sheet.next")
	assert.Equal(t, zoom, r.sheetView.cam, "every sheet is found as it was left")

	r.do("sheet.add")
	require.Len(t, r.doc().Sheets(), 3)
	assert.Equal(t, r.doc().Sheets()[2].ID, r.sheet, "the new sheet is in sight")
	r.do("sheet.left")
	assert.Equal(t, r.doc().Sheets()[1].ID, r.sheet)

	r.do("sheet.rename")
	in := r.win.Canvas().Focused().(*entry)
	in.SetText("Power")
	r.tap("Use it")
	assert.True(t, r.boxOpen(), "a name that is taken is refused at the field")
	in.SetText("Rear")
	r.tap("Use it")
	assert.False(t, r.boxOpen())
	assert.Equal(t, "Rear", r.tabs.all[1].text.Text)

	r.do("sheet.delete")
	assert.Len(t, r.doc().Sheets(), 2)
	assert.NotEqual(t, schematic.ID{}, r.sheet)
	assert.NotNil(t, r.doc().Sheet(r.sheet), "another sheet is in sight now")
}

func TestTabsByMouse(t *testing.T) {
	r := newRig(t, lampsFile)
	r.tabs.all[1].Tapped(&fyne.PointEvent{})
	assert.Equal(t, r.doc().Sheets()[1].ID, r.sheet)
	r.clock = r.clock.Add(time.Minute)
	r.tabs.all[1].Tapped(&fyne.PointEvent{})
	assert.False(t, r.boxOpen(), "one press on the tab in front does nothing")
	r.tabs.all[1].Tapped(&fyne.PointEvent{})
	assert.True(t, r.boxOpen(), "a double press renames")
	r.tap("Go back")
	r.tabs.all[1].Dragged(&fyne.DragEvent{Dragged: fyne.Delta{DX: -200}})
	r.tabs.all[1].DragEnd()
	assert.Equal(t, "Lamps", r.doc().Sheets()[0].Name, "dragged to the front")
}

func TestCommandListFindsAndRuns(t *testing.T) {
	r := newRig(t, lampsFile)
	c := r.openChooser("Find a command", "", func(string) []chooserLine { return nil })
	c.box.close()
	r.do("help.list")
	require.True(t, r.boxOpen())
	in := r.win.Canvas().Focused().(*entry)
	in.SetText("select all")
	in.OnSubmitted(in.Text)
	assert.False(t, r.boxOpen())
	assert.NotEmpty(t, r.sess.Selection())
	assert.Equal(t, r.sheetView, r.win.Canvas().Focused(), "the keyboard goes back to the sheet")
}

func TestFindGoesToAThingOnAnotherSheet(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("edit.find")
	in := r.win.Canvas().Focused().(*entry)
	in.SetText("e1 lamp")
	in.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	in.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	in.OnSubmitted(in.Text)
	assert.Equal(t, []string{"E1"}, r.selected())
	assert.Equal(t, "Lamps", r.doc().Sheet(r.sheet).Name)
}

func TestTheThingOfThatNameIsFoundFirst(t *testing.T) {
	all := []chooserLine{{title: "F1  Bolted fuse SF30"}, {title: "F30  Maxi blade fuse"}, {title: "F3  Blade fuse"}}
	found := narrow(all, "f3")
	assert.Equal(t, []string{"F3  Blade fuse", "F30  Maxi blade fuse", "F1  Bolted fuse SF30"}, []string{found[0].title, found[1].title, found[2].title})
	assert.Equal(t, all, narrow(all, ""))
}

func TestKeysReachCommandsOnlyFromTheSheet(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("G1"))
	doc := r.doc()
	r.win.Canvas().Focus(r.tray.search)
	r.tray.search.TypedRune('r')
	r.tray.search.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	r.tray.search.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	assert.Same(t, doc, r.doc(), "typing in a field edits no parts")
	r.win.Canvas().Focus(r.sheetView)
	r.key("R")
	assert.NotSame(t, doc, r.doc())
}

func TestEscapeOneThingAtATime(t *testing.T) {
	r := newRig(t, lampsFile)
	r.setState(r.doc().States()[1].ID)
	r.choose(r.named("W5"))
	r.do("check.trace")
	require.NotNil(t, r.study.chain)
	r.key("W")
	r.key(fyne.KeyEscape)
	assert.Equal(t, selectTool, r.tools.Tool())
	assert.NotEmpty(t, r.sess.Selection())
	r.key(fyne.KeyEscape)
	assert.Empty(t, r.sess.Selection())
	require.NotNil(t, r.study.chain)
	r.key(fyne.KeyEscape)
	assert.Nil(t, r.study.chain)
}

func TestEveryKeyIsPrintedAndKnownToTheToolkit(t *testing.T) {
	r := newRig(t, "")
	for _, a := range r.actions.All() {
		for _, k := range a.Keys {
			assert.NotEmpty(t, keyText(k))
			assert.Equal(t, k, ourKey(fyneKey(k.Name), modsOf(k)), "%s survives the way to the toolkit and back", k)
		}
	}
	r.showKeys()
	assert.True(t, r.boxOpen())
}

func TestExportWritesTheFiles(t *testing.T) {
	r := newRig(t, lampsFile)
	dir := t.TempDir()
	for _, c := range []struct{ format, name, head string }{
		{asPDF, "a.pdf", "%PDF-"}, {asPNG, "a.png", "\x89PNG"}, {asSVG, "a.svg", "<?xml"},
	} {
		r.do("file.export")
		top := r.win.Canvas().Overlays().Top()
		var path *entry
		walk(top, func(o fyne.CanvasObject) {
			switch o := o.(type) {
			case *pick:
				if len(o.Options) == 3 && o.Options[0] == asPDF {
					o.SetSelected(c.format)
				}
			case *entry:
				path = o // the last one is the path
			}
		})
		require.NotNil(t, path)
		path.SetText(filepath.Join(dir, "missing", c.name))
		r.tap("Write the file")
		require.True(t, r.boxOpen(), "a folder that is not there is refused")
		path.SetText(filepath.Join(dir, c.name))
		r.tap("Write the file")
		r.tap("Close")
	}
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
		b, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		head := map[string]string{".pdf": "%PDF-", ".png": "\x89PNG", ".svg": "<?xml"}[filepath.Ext(e.Name())]
		assert.True(t, strings.HasPrefix(string(b), head), e.Name())
	}
	assert.Equal(t, []string{"a-1-Power.png", "a-1-Power.svg", "a-2-Lamps.png", "a-2-Lamps.svg", "a.pdf"}, names, "pictures hold one sheet each")
}

func TestListsAndBoxesLetKeysThrough(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("G1"))
	for i, w := range []fyne.Focusable{r.drawer.findings.list, r.strip.state, r.strip.live, r.tray.list} {
		turns := r.part("G1").Views[0].Turns
		r.win.Canvas().Focus(w)
		w.TypedKey(&fyne.KeyEvent{Name: "R"})
		assert.Equal(t, (turns+1)%4, r.part("G1").Views[0].Turns, i)
		at := r.part("G1").Views[0].At
		w.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
		assert.Equal(t, at, r.part("G1").Views[0].At, "arrows are the list's own and move no part")
		for r.boxOpen() {
			r.sheetView.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		}
		r.jump(r.named("G1"))
	}
	r.do("check.next")
	first := r.drawer.findings.at
	r.drawer.findings.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	assert.Equal(t, first+1, r.drawer.findings.at, "and in the findings they go on")
}

func TestKeysDoNotWorkBelowABox(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("G1"))
	doc := r.doc()
	r.question("Something", "open", answer{text: "Close", main: true})
	r.typedKey(fyne.KeyDelete, 0)
	r.typedKey("R", 0)
	r.do("edit.delete")
	r.do("file.new")
	assert.Same(t, doc, r.doc())
	r.typedKey(fyne.KeyEscape, 0)
	assert.False(t, r.boxOpen())
}

func TestTheExportBoxShowsThePagesAsTheyWillCome(t *testing.T) {
	r := newRig(t, copyLamps(t))
	r.do("file.export")
	var p *printPreview
	r.everything(func(o fyne.CanvasObject) {
		if b, ok := o.(*button); ok && b.Text == "Next" && b.tip() == "Show the next page" {
			p = &printPreview{next: b}
		}
	})
	require.NotNil(t, p, "there is a preview")
	says := func() string {
		var all []string
		r.everything(func(o fyne.CanvasObject) {
			if l, ok := o.(*widget.Label); ok && l.Visible() && (strings.HasPrefix(l.Text, "Page ") || strings.Contains(l.Text, "scale 1 :")) {
				all = append(all, l.Text)
			}
		})
		return strings.Join(all, "; ")
	}
	assert.Contains(t, says(), "Page 1 of 2; 297 × 210 mm, lying, scale 1 : 1.64")
	findings := func(on bool) {
		r.everything(func(o fyne.CanvasObject) {
			if c, ok := o.(*ticked); ok && strings.HasPrefix(c.Text, "With the list of findings") {
				c.SetChecked(on)
			}
		})
	}
	findings(true)
	assert.Contains(t, says(), "Page 1 of 4", "two pages of findings follow the sheets")
	findings(false)
	r.everything(func(o fyne.CanvasObject) {
		if s, ok := o.(*pick); ok && s.Selected == fitPage {
			s.SetSelected(lifePage)
		}
	})
	assert.Contains(t, says(), "row 1 of 2, column 1 of ")
	test.Tap(p.next)
	assert.Contains(t, says(), "Page 2 of ")
	assert.Contains(t, says(), "column 2 of ")
	r.tap("Go back")
}
