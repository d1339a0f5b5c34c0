package loomfile_test

import (
	"fmt"
	"os"
	"strings"

	"loomwright/schematic/loomfile"
)

// A harness written by hand becomes the canonical form.
func Example() {
	d, err := loomfile.Read(strings.NewReader(`{
		"format": "loomwright-harness", "version": 1,
		"sheets": [{"name": "Engine"}],
		"notes": [{"at": [100, 100], "text": "left side"}]
	}`), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := loomfile.Write(os.Stdout, d); err != nil {
		fmt.Println(err)
	}
	// Output:
	// {
	//   "format": "loomwright-harness",
	//   "version": 1,
	//   "info": {},
	//   "sheets": [
	//     {"id": "791d9776-39d4-5f6b-9267-6da538ade047", "name": "Engine", "order": 0}
	//   ],
	//   "notes": [
	//     {
	//       "id": "3a0e688f-32a6-5a7f-9cfe-f9d7e0d5b5bc",
	//       "sheet": "791d9776-39d4-5f6b-9267-6da538ade047",
	//       "at": [100, 100],
	//       "text": "left side"
	//     }
	//   ]
	// }
}
