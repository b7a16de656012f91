package journal

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
)

// An entry opens with a comment and closes with YAML's own end mark, so that a
// file cut short, even at the end of a line, is known from a whole one. Files
// without the opening comment (written by hand) need no end mark.
const (
	opening = `# entry of the journal; it is whole when its last line is "..."`
	closing = "..."
)

// mostNames bounds the search for a free name among entries of one minute.
const mostNames = 1000

// place writes the bytes of one entry into the folder under a name made from
// stem, and returns that name. The steps: a temporary file, its bytes synced,
// then linked to a name that must not exist yet, then the folder synced. Where
// the file system has no links the file is created under its name exclusively;
// its closing line then tells a whole entry from a torn one. A failure leaves
// no entry behind.
func place(d disk, folder, stem string, data []byte) (name string, err error) {
	temporary := filepath.Join(folder, temporaryName())
	if err := writeNew(d, temporary, data); err != nil {
		return "", err
	}
	defer d.Remove(temporary) // a left-over temporary name is no entry
	name, err = linkFree(d, temporary, folder, stem)
	if err != nil && noLinks(err) {
		name, err = createFree(d, folder, stem, data)
	}
	if err != nil {
		return "", err
	}
	if err := d.SyncFolder(folder); err != nil {
		return "", errors.Join(err, ignoreMissing(d.Remove(filepath.Join(folder, name))))
	}
	return name, nil
}

// writeNew writes and syncs a file that must not exist, and removes it again
// when that fails.
func writeNew(d disk, path string, data []byte) (err error) {
	f, err := d.Create(path)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	err = errors.Join(err, f.Close())
	if err != nil {
		return errors.Join(err, ignoreMissing(d.Remove(path)))
	}
	return nil
}

func linkFree(d disk, temporary, folder, stem string) (string, error) {
	return firstFree(stem, func(name string) error {
		return d.Link(temporary, filepath.Join(folder, name))
	})
}

func createFree(d disk, folder, stem string, data []byte) (string, error) {
	return firstFree(stem, func(name string) error {
		return writeNew(d, filepath.Join(folder, name), data)
	})
}

// firstFree tries stem.yaml, stem-2.yaml ... stem-9.yaml and then random
// endings until one is not taken.
func firstFree(stem string, try func(name string) error) (string, error) {
	for n := 1; n <= mostNames; n++ {
		name := stem + ".yaml"
		switch {
		case n > 9:
			name = stem + "-" + randomText(4) + ".yaml"
		case n > 1:
			name = stem + "-" + strconv.Itoa(n) + ".yaml"
		}
		err := try(name)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		return name, err
	}
	return "", fmt.Errorf("no free name for an entry called %s", stem)
}

// temporaryPrefix marks a file still being written. Readers pass it over.
const temporaryPrefix = ".unfinished-"

func temporaryName() string {
	return temporaryPrefix + randomText(8) + ".yaml"
}

func randomText(bytes int) string {
	b := make([]byte, bytes)
	rand.Read(b) // never fails
	return hex.EncodeToString(b)
}

func ignoreMissing(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// torn tells whether an entry that promises a closing line lacks it.
func torn(data string) bool {
	if !strings.HasPrefix(data, opening) {
		return false
	}
	lines := strings.TrimRight(data, "\r\n")
	return !strings.HasSuffix(lines, "\n"+closing)
}
