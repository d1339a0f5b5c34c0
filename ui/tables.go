package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/netlist/table"
	"loomwright/schematic"
)

// tablePanel is a panel of the drawer that shows every wire, pin or part
// as a row. Rows and drawing select each other.
type tablePanel struct {
	ed     *Editor
	build  func(table.Facts) *table.Table
	noun   string
	table  *table.Table
	shown  []table.Row
	view   table.View
	grid   *grid
	search *entry
	sheet  *ticked
	only   *ticked
	count  *widget.Label
	box    fyne.CanvasObject
	head   *fyne.Container
	side   *fyne.Container // its buttons
	stale  bool
	held   bool                                  // rows stay where they are while cells are edited
	typed  *schematic.Doc                        // as the last cell edited here left it
	apart  bool                                  // choosing rows leaves the selection on the drawing alone
	quiet  bool                                  // the selection is the table's own doing
	beyond func(block [][]string, col int) error // what is pasted beyond the last row; nil refuses it
	titles []gridColumn
}

// searchRoom is the least width of a field to search in.
const searchRoom = 80

func newTablePanel(ed *Editor, noun string, build func(table.Facts) *table.Table) *tablePanel {
	t := &tablePanel{ed: ed, build: build, noun: noun, stale: true}
	t.table = build(table.Facts{Doc: ed.doc()})
	for _, c := range t.table.Columns {
		t.titles = append(t.titles, gridColumn{title: c.Title, help: c.Help, letters: c.Letters, right: c.Number, editable: c.Editable})
	}
	t.grid = newGrid(ed, t)
	t.grid.StickyColumnCount = 1
	if noun == "pin" {
		t.grid.StickyColumnCount = 2
	}
	t.grid.picked = t.pickRows
	t.grid.escape = func() { ed.win.Canvas().Focus(ed.sheetView) }
	t.search = newEntry(nil)
	t.search.SetPlaceHolder("Filter…")
	t.search.SetIcon(icon("search"))
	t.search.changed = func(s string) { t.view.Filter = s; t.anew() }
	t.only = newTicked(ed.typedKey, "Selected", func(bool) { t.scope(); t.anew() })
	t.sheet = newTicked(ed.typedKey, "This sheet", func(bool) { t.scope(); t.anew() })
	t.count = widget.NewLabel("")
	t.count.Importance = widget.LowImportance
	t.side = container.NewHBox(t.only, t.sheet, t.count,
		t.button("Fill down", "Give all selected rows what the first says in this column (Ctrl+D)", t.grid.fillDown),
		t.button("Copy", "Copy the selected rows for a spreadsheet (Ctrl+C)", t.grid.copy),
		t.button("Paste", "Paste cells of a spreadsheet from the cell in hand on (Ctrl+V)", t.grid.paste),
		t.button("Write CSV…", "Write the rows in sight to a file for a spreadsheet", t.askCSV))
	head := container.NewBorder(nil, nil, nil, t.side, container.NewStack(wide(searchRoom), container.New(padded{4, 0}, t.search)))
	t.head = container.NewVBox(head)
	t.box = container.NewBorder(t.head, nil, nil, nil, t.grid.box)
	return t
}

func (t *tablePanel) button(text, tip string, deed func()) *button {
	b := newButton(t.ed.tips, text, "", tip, deed)
	b.Importance = widget.LowImportance
	return b
}

// refresh makes the table of the present document and results.
func (t *tablePanel) refresh() {
	t.stale = false
	if !t.quiet && t.typed != t.ed.doc() && !t.view.Sorted && t.view.Filter == "" {
		t.held = false // changed on the drawing: back in the order of designations
	}
	f := table.Facts{Doc: t.ed.doc(), Solution: t.ed.study.solution(), Units: t.ed.system()}
	if have := t.ed.study.have; have != nil {
		for _, x := range have.findings {
			f.Findings = append(f.Findings, x.Finding)
		}
	}
	t.table = t.build(f)
	t.scope()
	t.arrange()
}

// scope takes the sheet in sight and the selection over where only those count.
func (t *tablePanel) scope() {
	t.view.Sheet, t.view.Only = schematic.ID{}, nil
	if t.sheet.Checked {
		t.view.Sheet = t.ed.sheet
	}
	if t.only.Checked {
		t.view.Only = map[schematic.Key]bool{}
		for _, k := range t.ed.sess.Selection() {
			t.view.Only[k] = true
		}
	}
}

// anew lists the rows as they are wanted from now on.
func (t *tablePanel) anew() {
	t.held = false
	t.arrange()
}

// wanted returns the rows wanted. While cells are edited the rows that were in
// sight stay, where they were: a row must not run away under the hand that fills
// in its column, nor go because it no longer holds the words looked for.
func (t *tablePanel) wanted() []table.Row {
	rows := t.table.Arrange(t.view)
	if !t.held {
		return rows
	}
	there := make(map[table.Row]bool, len(t.table.Rows))
	for _, r := range t.table.Rows {
		there[r] = true
	}
	var kept []table.Row
	seen := make(map[table.Row]bool, len(t.shown))
	for _, r := range t.shown {
		if there[r] {
			kept = append(kept, r)
			seen[r] = true
		}
	}
	for _, r := range rows {
		if !seen[r] {
			kept = append(kept, r)
		}
	}
	return kept
}

// arrange lists the rows wanted; the cell in hand stays with its row.
func (t *tablePanel) arrange() {
	var inHand table.Row
	if t.grid.row < len(t.shown) {
		inHand = t.shown[t.grid.row]
	}
	chosen := map[table.Row]bool{}
	for _, i := range t.grid.rowsChosen() {
		chosen[t.shown[i]] = true
	}
	t.shown = t.wanted()
	t.grid.chosen = map[int]bool{}
	for i, r := range t.shown {
		if chosen[r] {
			t.grid.chosen[i] = true
		}
	}
	if i := slices.Index(t.shown, inHand); i >= 0 {
		t.grid.row = i
	}
	t.grid.row = max(0, min(t.grid.row, len(t.shown)-1))
	if len(t.shown) == len(t.table.Rows) {
		t.count.SetText(count(len(t.shown), t.noun))
	} else {
		t.count.SetText(fmt.Sprintf("%d of %s", len(t.shown), count(len(t.table.Rows), t.noun)))
	}
	t.markSelection()
}

// selectionChanged marks the rows of what is selected on the drawing.
func (t *tablePanel) selectionChanged() {
	if t.quiet {
		return
	}
	if t.only.Checked {
		t.scope()
		t.anew()
		return
	}
	t.markSelection()
}

func (t *tablePanel) markSelection() {
	sel := map[schematic.Key]bool{}
	for _, k := range t.ed.sess.Selection() {
		sel[k] = true
	}
	var rows []int
	for i, r := range t.shown {
		if slices.ContainsFunc(t.table.Keys(r), func(k schematic.Key) bool { return sel[k] }) {
			rows = append(rows, i)
		}
	}
	if t.apart && len(rows) == 0 || t.quiet || t.same(sel) {
		t.grid.Refresh()
		return
	}
	t.grid.mark(rows)
}

// same reports whether the rows chosen are about just what is selected: some
// pins of the parts selected, say. Then the table knows more than the drawing.
func (t *tablePanel) same(sel map[schematic.Key]bool) bool {
	keys := t.keysChosen()
	return len(keys) > 0 && len(keys) == len(sel) && !slices.ContainsFunc(keys, func(k schematic.Key) bool { return !sel[k] })
}

// keysChosen returns what the rows chosen are about.
func (t *tablePanel) keysChosen() []schematic.Key {
	var keys []schematic.Key
	seen := map[schematic.Key]bool{}
	for _, i := range t.grid.rowsChosen() {
		if i >= len(t.shown) {
			continue
		}
		for _, k := range t.table.Keys(t.shown[i]) {
			if !seen[k] {
				seen[k] = true
				keys = append(keys, k)
			}
		}
	}
	return keys
}

// pickRows selects on the drawing what the rows chosen are about.
func (t *tablePanel) pickRows() {
	if t.apart {
		return
	}
	keys := t.keysChosen()
	t.quiet = true
	defer func() { t.quiet = false }()
	if t.grid.row < len(t.shown) {
		// The row in hand is brought in sight, all of them are selected.
		if in := t.table.Keys(t.shown[t.grid.row]); len(in) > 0 && slices.Contains(keys, in[0]) {
			t.ed.bringItem(in[0])
		}
	}
	t.ed.choose(keys...)
}

// takeKeyboard puts the keyboard into the table.
func (t *tablePanel) takeKeyboard() { t.ed.win.Canvas().Focus(t.grid) }
