package charset_test

import (
	"fmt"

	"trencher/units/charset"
)

func ExampleText() {
	text, err := charset.Text("cake.txt", []byte("2\xbd cups"), "iso-8859-1")
	fmt.Println(text, err)
	_, err = charset.Text("cake.txt", []byte("2\xbd cups"), "")
	fmt.Println(err)
	// Output:
	// 2½ cups <nil>
	// cake.txt:1:2: byte 0xbd is no text in UTF-8, and nothing tells of another character set
}
