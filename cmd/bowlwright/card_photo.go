package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"bowlwright/household"
	"bowlwright/report/paper"
)

// mostPhotoBytes is larger than the pictures that cameras write.
const mostPhotoBytes = 40 << 20

// photosOf reads the photos of the pets that have one, made ready for paper.
func photosOf(h *household.Household, pets []*household.Pet) (map[string][]byte, error) {
	photos := map[string][]byte{}
	for _, pet := range pets {
		if pet.Photo == "" {
			continue
		}
		wrong := func(why string) error {
			return badInput(fmt.Sprintf("the photo of %s, %s: %s", pet.Name, pet.Photo, why), "put a JPEG or PNG picture there, or take photo out of household.toml")
		}
		path := filepath.Join(h.Dir, pet.Photo)
		// A pipe would be waited for without an end.
		if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() {
			return nil, wrong("there is no such file")
		}
		file, err := os.Open(path)
		if err != nil {
			return nil, wrong("it cannot be read")
		}
		data, err := io.ReadAll(io.LimitReader(file, mostPhotoBytes+1))
		file.Close()
		if err != nil || len(data) > mostPhotoBytes {
			return nil, wrong("it cannot be read, or is too large")
		}
		var bad *paper.PhotoError
		if photos[pet.Name], err = paper.Photo(data); errors.As(err, &bad) {
			return nil, wrong(bad.Why)
		} else if err != nil {
			return nil, err
		}
	}
	return photos, nil
}
