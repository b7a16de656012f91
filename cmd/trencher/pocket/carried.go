//go:build pocket

package pocket

import _ "embed"

//go:embed built/program.wasm.gz
var builtWasm []byte

//go:embed built/go.js
var builtStarter []byte

func carried() (Program, bool) { return Program{Wasm: builtWasm, Go: builtStarter}, true }
