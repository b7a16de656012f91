package journal

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/base32"
	"os"
	"path/filepath"
	"strings"

	"trencher/units/pattern"
)

// DeviceName finds the name that this device signs entries with, so that undo
// never takes back what another one wrote: a few random letters, kept in the
// folder where a person's settings are, for a name kept in the plot would be
// copied to the other devices. Where that folder cannot be written to it is made
// of the machine's own name.
func DeviceName(settings func() (string, error)) string {
	folder, err := settings()
	if err != nil {
		return deviceByHost()
	}
	file := filepath.Join(folder, "trencher", "device")
	if name, ok := readDevice(file); ok {
		return name
	}
	name := strings.ToLower(rand.Text()[:deviceLetters])
	if os.MkdirAll(filepath.Dir(file), 0o700) != nil || os.WriteFile(file, []byte(name+"\n"), 0o600) != nil {
		return deviceByHost()
	}
	return name
}

const deviceLetters = 6

var deviceName = pattern.New(`^[a-z2-7]{6}$`)

func readDevice(file string) (name string, ok bool) {
	data, err := os.ReadFile(file)
	name = strings.TrimSpace(string(data))
	return name, err == nil && deviceName.MatchString(name)
}

func deviceByHost() string {
	host, err := os.Hostname()
	if err != nil {
		return ""
	}
	sum := sha256.Sum256([]byte(host))
	return strings.ToLower(base32.StdEncoding.EncodeToString(sum[:])[:deviceLetters])
}
