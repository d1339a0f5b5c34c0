package catalog

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"sort"
	"sync"

	"loomwright/assets"
	"loomwright/schematic"
	"loomwright/schematic/canon"
)

// builtin reads the kinds that come with the program once.
var builtin = sync.OnceValues(func() (*schematic.Library, error) { return Load(assets.Kinds) })

// Default returns the kinds that come with the program. The library is shared:
// do not write to its kinds.
func Default() (*schematic.Library, error) { return builtin() }

// file is a JSON file of kinds.
type file struct {
	Kinds []*schematic.Kind `json:"kinds"`
}

// Load reads all kinds/*.json of a file system into a library. Files that
// cannot be read, names given twice and kinds with problems (see [Validate])
// are errors that name file and kind.
func Load(fsys fs.FS) (*schematic.Library, error) {
	names, err := fs.Glob(fsys, "kinds/*.json")
	if err != nil {
		return nil, fmt.Errorf("list part kinds: %w", err)
	}
	sort.Strings(names)
	var kinds []*schematic.Kind
	from := map[string]string{}
	for _, name := range names {
		read, err := loadFile(fsys, name)
		if err != nil {
			return nil, err
		}
		for _, k := range read {
			if other, taken := from[k.Name]; taken {
				return nil, fmt.Errorf("part kind %q is defined twice, in %s and %s: rename one", k.Name, other, path.Base(name))
			}
			from[k.Name] = path.Base(name)
		}
		kinds = append(kinds, read...)
	}
	lib := schematic.NewLibrary(kinds...)
	for _, k := range kinds {
		if k.OtherHalf != "" && lib.Kind(k.OtherHalf) == nil {
			return nil, fmt.Errorf("%s: part kind %q has the other half %q, which no file defines", from[k.Name], k.Name, k.OtherHalf)
		}
	}
	return lib, nil
}

func loadFile(fsys fs.FS, name string) ([]*schematic.Kind, error) {
	data, err := fs.ReadFile(fsys, name)
	if err != nil {
		return nil, fmt.Errorf("read part kinds: %w", err)
	}
	var f file
	if err := canon.Decode(data, &f); err != nil {
		return nil, fmt.Errorf("%s: %w", path.Base(name), err)
	}
	var bad []error
	for i, k := range f.Kinds {
		if k == nil {
			return nil, fmt.Errorf("%s: kinds[%d] is null: write a part kind or remove it", path.Base(name), i)
		}
		for _, p := range Validate(k) {
			bad = append(bad, fmt.Errorf("%s: part kind %q: %s", path.Base(name), k.Name, p))
		}
	}
	return f.Kinds, errors.Join(bad...)
}
