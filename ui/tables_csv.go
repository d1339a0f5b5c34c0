package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

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
