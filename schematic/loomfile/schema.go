package loomfile

import _ "embed"

//go:embed loom.schema.json
var schema string

// Schema returns the JSON Schema (draft 2020-12) of harness files, hand-written
// and canonical.
func Schema() string { return schema }
