package ui

import "loomwright/netlist/table"

// newWirePanel is the table of wires. Rows pasted beyond its last one are wires
// to be drawn, and so is a list pasted with its titles.
func newWirePanel(ed *Editor) *tablePanel {
	t := newTablePanel(ed, "wire", table.Wires)
	t.beyond = func(block [][]string, col int) error {
		lines, err := table.WireLines(block, col)
		if err == nil {
			ed.openWireList(lines)
		}
		return err
	}
	t.side.Add(t.button("New wires…", "Draw the wires of a list that is pasted or typed (Shift+W)", ed.newWireList))
	return t
}
