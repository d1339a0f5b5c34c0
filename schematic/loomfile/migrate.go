package loomfile

import (
	"fmt"
	"strconv"

	"loomwright/schematic/canon"
)

// migration reworks the tree of a file of one version into the next.
type migration func(*canon.Tree) error

// migrations returns the step from each version to the next, by the version it
// starts from. A new version adds a line here, a sample of the version before
// to testdata, and raises [Version].
func migrations() map[int]migration {
	return map[int]migration{}
}

// migrate brings a tree to the newest version.
func migrate(t *canon.Tree, steps map[int]migration, newest int) error {
	v, err := version(&t.Root)
	if err != nil {
		return err
	}
	for ; v < newest; v++ {
		step := steps[v]
		if step == nil {
			panic(fmt.Sprintf("loomfile: no migration from version %d", v))
		}
		if err := step(t); err != nil {
			return fmt.Errorf("bring the file from format version %d to %d: %w", v, v+1, err)
		}
		t.Root.Set("version", canon.IntNode(v+1))
	}
	return nil
}

// version returns the format version a file says.
func version(root *canon.Node) (int, error) {
	v := root.Field("version")
	if v != nil && v.Kind == canon.Number {
		if n, err := strconv.Atoi(v.Text); err == nil && n >= 1 {
			return n, nil
		}
	}
	return 0, fmt.Errorf("the version should be a whole number from 1")
}
