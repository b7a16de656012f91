package pocket

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
)

// ErrNoProgram: this build carries no program for the phone, and cannot make
// one here.
var ErrNoProgram = errors.New("this build has no program for the phone inside")

// Carried is the program a release build has inside it; ok is false for a build
// without it, which can [Make] it.
func Carried() (program Program, ok bool) { return carried() }

// Make compiles the program with the Go tool of this machine, from the source
// this build was made from. Its error wraps [ErrNoProgram] where there is no Go
// tool or no source.
func Make(ctx context.Context) (Program, error) {
	_, here, _, _ := runtime.Caller(0)
	source, err := sourceBeside(here)
	if err != nil {
		return Program{}, err
	}
	root, err := goTool(ctx, source, "env", "GOROOT")
	if err != nil {
		return Program{}, err
	}
	starter, err := os.ReadFile(filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return Program{}, fmt.Errorf("%w, and the Go distribution here has no lib/wasm", ErrNoProgram)
	}
	folder, err := os.MkdirTemp("", "trencher-pocket-")
	if err != nil {
		return Program{}, err
	}
	defer os.RemoveAll(folder)
	made := filepath.Join(folder, "program.wasm")
	build := append([]string{"build", "-trimpath", "-ldflags", "-s -w", "-o", made}, smaller()...)
	if _, err := goTool(ctx, source, append(build, "./app")...); err != nil {
		return Program{}, err
	}
	wasm, err := os.ReadFile(made)
	if err != nil {
		return Program{}, err
	}
	return Program{Wasm: compress(wasm), Go: starter}, nil
}

// smaller are flags for packages that work little: their functions are not copied
// into those that call them, which makes the program a tenth smaller to load, and
// quicker to start and to make its first plan, for a browser compiles what runs
// for the first time. What searches and simulates is left as it is.
func smaller() (flags []string) {
	for _, packages := range []string{"crypto/...", "encoding/...", "fmt", "html/...", "mime/...", "net/...", "reflect", "regexp/...", "sort", "strconv", "text/...", "time", "vendor/...",
		"github.com/...", "golang.org/...", "gopkg.in/...", "trencher/cmd/...", "trencher/harvest/...", "trencher/units/...",
		"trencher/recipes", "trencher/recipes/keeping", "trencher/recipes/meal", "trencher/recipes/saved", "trencher/recipes/schedule"} {
		flags = append(flags, "-gcflags="+packages+"=-l")
	}
	return flags
}

// sourceBeside is the folder of this package's source, where it lies beside a file of
// it, as a build knows it.
func sourceBeside(file string) (string, error) {
	folder := filepath.Dir(file)
	if _, err := os.Stat(filepath.Join(folder, "app", "main.go")); err != nil {
		return "", fmt.Errorf("%w, and its source is not on this machine", ErrNoProgram)
	}
	return folder, nil
}

func goTool(ctx context.Context, folder string, args ...string) (string, error) {
	tool, err := exec.LookPath("go")
	if err != nil {
		return "", fmt.Errorf("%w, and there is no Go tool on this machine to make it with", ErrNoProgram)
	}
	cmd := exec.CommandContext(ctx, tool, args...)
	cmd.Dir = folder
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0", "GOFLAGS=")
	var said bytes.Buffer
	cmd.Stderr = &said
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("the Go tool could not make the program for the phone: %w\n%s", err, strings.TrimSpace(said.String()))
	}
	return string(out), nil
}

// compress packs bytes as small as gzip can. Nothing of it can fail: the level is one
// there is, and a buffer takes all.
func compress(data []byte) []byte {
	var packed bytes.Buffer
	w, _ := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	_, _ = w.Write(data)
	_ = w.Close()
	return packed.Bytes()
}
