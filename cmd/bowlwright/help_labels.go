package main

// labelsTopic says how a sheet of labels is described.
const labelsTopic = `bowlwright cook --format labels prints a label for each container and for what
is left over; with --jars one for the jar of each premix too. Without more,
fourteen labels of 90 x 36 mm to a sheet, to cut from plain paper.

For a sheet of labels, give the size of one as it stands on the box, width
before height, in millimetres. The sheet is filled with as many as it holds, in
its middle; what differs is said beside it:

  --label-size 63.5x38.1         one label; an inch is 25.4 mm
  --label-gap-x 2.5, --label-gap-y 0     between labels
  --label-columns 3, --label-rows 7      when fewer than fit
  --label-left 7.2, --label-top 15.1     margins, when not in the middle
  --label-skip 4                 the first four labels of the sheet are used

Sheets as they are often sold:
  A4       3 x 8   70 x 36       --label-size 70x36
  A4       3 x 7   63.5 x 38.1   --label-size 63.5x38.1 --label-gap-x 2.5
  A4       2 x 7   99.1 x 38.1   --label-size 99.1x38.1 --label-gap-x 2.5
  A4       2 x 6   105 x 48      --label-size 105x48
  A4       2 x 4   99.1 x 67.7   --label-size 99.1x67.7 --label-gap-x 2.5
  Letter   3 x 10  2 5/8 x 1 in  --label-size 66.7x25.4 --label-gap-x 3.2
                                 --label-rows 10
  Letter   2 x 5   4 x 2 in      --label-size 101.6x50.8 --label-gap-x 4.8

Print one sheet on plain paper first and hold it against the labels; print at
100 %. A label is refused when it is too small for its amounts and dates: none
is ever cut.
`
