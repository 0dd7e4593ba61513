package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/google/renameio/v2"
)

// writeFile writes a file whole or not at all, and never over one that exists
// unless forced to.
func writeFile(path string, content []byte, force bool) error {
	if _, err := os.Lstat(path); err == nil && !force {
		return fmt.Errorf("%s: exists already, expected another name or --force", path)
	} else if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if dir := filepath.Dir(path); !isFolder(dir) {
		return fmt.Errorf("%s: no folder %s, expected one that is there", path, dir)
	}
	if err := renameio.WriteFile(path, content, 0o644); err != nil {
		return fmt.Errorf("%s: cannot be written: %w", path, err)
	}
	return nil
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}
