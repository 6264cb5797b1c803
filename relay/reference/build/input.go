package build

import (
	"bufio"
	"bytes"
	"compress/bzip2"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/klauspost/compress/gzip"
	"github.com/klauspost/compress/zstd"
)

// Input is a file with games as a build knows it again.
type Input struct {
	Path  string // absolute
	Size  int64  // bytes, packed as they are
	Mtime int64  // when it was changed, Unix time in nanoseconds
	Head  string // checksum of its first 64 KB
}

// headBytes are looked at to know a file again.
const headBytes = 64 << 10

// identify looks at a file without reading all of it.
func identify(path string) (Input, error) {
	absolute, err := filepath.Abs(path)
	if err != nil {
		return Input{}, err
	}
	info, err := os.Stat(path) // before it is opened: opening a pipe waits for who writes to it
	if err != nil {
		return Input{}, err
	}
	if !info.Mode().IsRegular() {
		return Input{}, fmt.Errorf("%s is not a file: name the files with games themselves", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return Input{}, err
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := io.CopyN(sum, f, headBytes); err != nil && err != io.EOF {
		return Input{}, err
	}
	return Input{absolute, info.Size(), info.ModTime().UnixNano(), hex.EncodeToString(sum.Sum(nil)[:16])}, nil
}

// text is an input's text, unpacked.
type text struct {
	io.Reader
	file *os.File
	zstd *zstd.Decoder // nil if it is packed otherwise
}

// The first bytes of packed files: RFC 8878 3.1.1, RFC 1952 2.3.1, and for bzip2, which
// no standard describes, what every file of it begins with.
var (
	magicZstd  = []byte{0x28, 0xB5, 0x2F, 0xFD}
	magicGzip  = []byte{0x1F, 0x8B}
	magicBzip2 = []byte("BZh")
)

// zstdMemory is what unpacking may take: the window of what was packed with --long=27.
const zstdMemory = 128 << 20

// openText opens a file and unpacks it as its first bytes say, whatever its name.
func openText(path string) (*text, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	t := &text{file: f}
	packed := bufio.NewReaderSize(f, 256<<10)
	head, _ := packed.Peek(len(magicZstd)) // what fails here fails again when it is read
	switch {
	case bytes.HasPrefix(head, magicZstd):
		t.zstd, err = zstd.NewReader(packed, zstd.WithDecoderConcurrency(1), zstd.WithDecoderMaxWindow(zstdMemory))
		t.Reader = t.zstd
	case bytes.HasPrefix(head, magicGzip):
		t.Reader, err = gzip.NewReader(packed)
	case bytes.HasPrefix(head, magicBzip2):
		t.Reader = bzip2.NewReader(packed)
	default:
		t.Reader = packed
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return t, nil
}

// packed returns how many bytes of the file have been read.
func (t *text) packed() int64 {
	n, err := t.file.Seek(0, io.SeekCurrent)
	if err != nil {
		return 0 // told as progress only
	}
	return n
}

func (t *text) close() error {
	if t.zstd != nil {
		t.zstd.Close()
	}
	return t.file.Close()
}
