package render

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What browsers call themselves, in the forms their makers publish (known by
// memory), and what is said of it.
func TestDeviceWords(t *testing.T) {
	for agent, want := range map[string]string{
		"Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.5 Mobile/15E148 Safari/604.1":   "iPhone, Safari",
		"Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) FxiOS/140.0 Mobile/15E148 Safari/605.1.15": "iPhone, Firefox",
		"Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0.0.0 Mobile Safari/537.36":                           "Android phone, Chrome",
		"Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0.0.0 Safari/537.36":                                  "Android tablet, Chrome",
		"Mozilla/5.0 (Linux; Android 15; SM-X) AppleWebKit/537.36 (KHTML, like Gecko) SamsungBrowser/28.0 Chrome/130.0.0.0 Mobile Safari/537.36":    "Android phone, the maker's browser",
		"Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0.0.0 Safari/537.36 Edg/140.0.0.0":             "Windows computer, Edge",
		"Mozilla/5.0 (Macintosh; Intel Mac OS X 10.15; rv:140.0) Gecko/20100101 Firefox/140.0":                                                      "Mac, Firefox",
		"Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0":                                                                    "Linux computer, Firefox",
		"": "A device of an unknown kind", "<script>alert(1)</script>": "A device of an unknown kind",
	} {
		assert.Equal(t, want, DeviceWords(agent), agent)
	}
}
