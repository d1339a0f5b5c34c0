package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/netlist/check"
	"loomwright/netlist/table"
	"loomwright/schematic"
	"loomwright/schematic/edit"
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
	stale  bool
	held   bool // rows stay where they are while cells are edited
	apart  bool // choosing rows leaves the selection on the drawing alone
	quiet  bool // the selection is the table's own doing
	titles []gridColumn
}

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
	t.search.SetPlaceHolder("Only rows that hold…")
	t.search.SetIcon(icon("search"))
	t.search.changed = func(s string) { t.view.Filter = s; t.anew() }
	t.only = newTicked(ed.typedKey, "Only selected", func(bool) { t.scope(); t.anew() })
	t.sheet = newTicked(ed.typedKey, "Only this sheet", func(bool) { t.scope(); t.anew() })
	t.count = widget.NewLabel("")
	t.count.Importance = widget.LowImportance
	side := container.NewHBox(t.only, t.sheet, t.count,
		t.button("Fill down", "Give all selected rows what the first says in this column (Ctrl+D)", t.grid.fillDown),
		t.button("Copy", "Copy the selected rows for a spreadsheet (Ctrl+C)", t.grid.copy),
		t.button("Paste", "Paste cells of a spreadsheet from the cell in hand on (Ctrl+V)", t.grid.paste),
		t.button("Write CSV…", "Write the rows in sight to a file for a spreadsheet", t.askCSV))
	head := container.NewBorder(nil, nil, nil, side, container.New(padded{4, 0}, t.search))
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

// The grid's model.

func (t *tablePanel) columns() []gridColumn { return t.titles }

func (t *tablePanel) rows() int { return len(t.shown) }

func (t *tablePanel) face(row, col int) gridFace {
	r := t.shown[row]
	f := gridFace{text: t.table.Text(r, col)}
	switch t.table.Columns[col].ID {
	case "colour":
		if c, err := schematic.ParseColor(f.text); err == nil {
			f.wire = c
		}
	case "finding":
		if x, ok := t.table.Worst(r); ok && x.Severity <= check.Warning {
			f.color = shadeOf(x.Severity).color
		}
	default:
		if f.text == "not known" {
			f.color = colorFaint
		}
	}
	return f
}

func (t *tablePanel) input(row, col int) string { return t.table.Input(t.shown[row], col) }

func (t *tablePanel) enter(rows []int, col int, text string) error {
	cells := make([]table.Cell, len(rows))
	for i, r := range rows {
		cells[i] = table.Cell{Row: t.shown[r], Col: col, Text: text}
	}
	if len(rows) == 1 { // said at the cell: no need to name it
		f, err := t.table.Edit(cells[0].Row, col, text)
		return t.apply(f, err, "set "+strings.ToLower(t.table.Columns[col].Title)+" of "+t.table.NameOf(cells[0].Row))
	}
	f, err := t.table.Change(cells)
	return t.apply(f, err, "set "+strings.ToLower(t.table.Columns[col].Title)+" of "+count(len(rows), t.noun))
}

// apply makes a change of the table one step of the history. What is selected
// stays selected, also when the change draws wires.
func (t *tablePanel) apply(f func(*edit.Tx) error, err error, label string) error {
	if err != nil || f == nil {
		return err
	}
	keys := t.ed.sess.Selection()
	t.quiet, t.held = true, t.view.Sorted || t.view.Filter != ""
	defer func() { t.quiet = false }()
	err = t.ed.try(label, func(tx *edit.Tx) error {
		if err := f(tx); err != nil {
			return err
		}
		tx.Select(keys...)
		return nil
	})
	if err == nil {
		t.ed.chosen()
	}
	return err
}

func (t *tablePanel) paste(text string, chosen []int, row, col int) error {
	block, err := table.Block(text)
	if err != nil {
		return err
	}
	var rows []table.Row
	for _, i := range chosen {
		rows = append(rows, t.shown[i])
	}
	cells, err := t.table.Fill(block, t.shown, row, rows, t.table.AllColumns(), col)
	if err != nil {
		return err
	}
	f, err := t.table.Change(cells)
	return t.apply(f, err, fmt.Sprintf("paste %d cells", len(cells)))
}

func (t *tablePanel) copied(rows []int) string {
	list := make([]table.Row, len(rows))
	for i, r := range rows {
		list[i] = t.shown[r]
	}
	return t.table.Lines(list, t.table.AllColumns(), false)
}

// sort sorts by a column; pressed again the other way round, then not at all.
func (t *tablePanel) sort(col int) {
	switch {
	case !t.view.Sorted || t.view.By != col:
		t.view.Sorted, t.view.By, t.view.Down = true, col, false
	case t.held: // edits left the order behind: bring it up to date first
	case !t.view.Down:
		t.view.Down = true
	default:
		t.view.Sorted = false
	}
	t.anew()
}

func (t *tablePanel) sorted() (int, bool) {
	if !t.view.Sorted {
		return -1, false
	}
	return t.view.By, t.view.Down
}

// takeKeyboard puts the keyboard into the table.
func (t *tablePanel) takeKeyboard() { t.ed.win.Canvas().Focus(t.grid) }

// askCSV writes the rows in sight, in their order, to a file.
func (t *tablePanel) askCSV() {
	name := strings.TrimSuffix(t.ed.file.name(), fileEnding) + "-" + t.noun + "s.csv"
	t.ed.pathDialog("Write the table of "+t.noun+"s as", "Write", filepath.Join(t.ed.inFolder(), name), func(from string, found func(string), _ func()) {
		t.ed.browseSave(from, found)
	}, func(path string) (string, error) {
		if filepath.Ext(path) == "" {
			path += ".csv"
		}
		if info, err := os.Stat(path); err == nil && info.IsDir() {
			return "", errors.New("that is a folder: add the file's name")
		}
		return path, nil
	}, func(path string) {
		if err := t.writeCSV(path); err != nil {
			t.ed.reportAs("Not written", err)
			return
		}
		t.ed.status.tell("wrote " + count(len(t.shown), "row") + " to " + path)
	})
}

func (t *tablePanel) writeCSV(path string) error {
	f, err := os.Create(path)
	if err != nil {
		return fmt.Errorf("the table could not be written: %w", err)
	}
	return errors.Join(t.table.WriteCSV(f, t.shown, t.table.AllColumns()), f.Close())
}
