// Package sample holds invented plans that the tests of the renderers share. Its figures
// prove nothing about nutrition.
package sample
