// Command make compiles the phone's program for a release build: it writes it
// to cmd/trencher/pocket/built, from where `go build -tags pocket` takes it.
package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"trencher/cmd/trencher/pocket"
)

func main() {
	if err := run(context.Background()); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(ctx context.Context) error {
	program, err := pocket.Make(ctx)
	if err != nil {
		return err
	}
	folder := filepath.Join("cmd", "trencher", "pocket", "built")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for name, data := range map[string][]byte{"program.wasm.gz": program.Wasm, "go.js": program.Go} {
		if err := os.WriteFile(filepath.Join(folder, name), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}
