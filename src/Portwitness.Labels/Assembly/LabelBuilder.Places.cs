using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <content>Where things are printed, and what was not read.</content>
internal sealed partial class LabelBuilder
{
    /// <summary>Where a piece is printed. In a table that is the cell, not what stands over it.</summary>
    public Place PlaceOf(Piece piece) => piece is ModePiece { IsApart: true } mode ? _places[mode.Volts.Start] : PlaceOf(piece.First..piece.End);

    /// <summary>Where some tokens are printed.</summary>
    public Place PlaceOf(Range range)
    {
        int first = range.Start.Value;
        for (int i = first + 1; i < range.End.Value; i++)
        {
            first = tokens[i].IsMoved && !FollowsInText(i) ? i : first;
        }

        return _places[tokens[first].Start];
    }

    public string TextOf(Piece piece) => piece is ModePiece { IsApart: true } mode
        ? $"{_text[mode.Volts.Start..mode.Volts.End]} {_text[mode.Amps.Start..mode.Amps.End]}" : TextOf(piece.First..piece.End);

    /// <summary>The printed words of some tokens; those that stand apart are joined by a space.</summary>
    public string TextOf(Range range)
    {
        int start = range.Start.Value;
        string words = "";
        for (int i = start + 1; i <= range.End.Value; i++)
        {
            if (i == range.End.Value || tokens[i].IsMoved)
            {
                string part = _text[tokens[start].Start..Math.Max(tokens[start].Start, tokens[i - 1].End)];
                words = words.Length == 0 ? part : $"{words} {part}";
                start = i;
            }
        }

        return words;
    }

    // A line of a wrapped rating follows in the text, a cell of a table does not.
    private bool FollowsInText(int token) => tokens[token].Start >= tokens[token - 1].End
        && _text.AsSpan(tokens[token - 1].End, tokens[token].Start - tokens[token - 1].End).IsWhiteSpace();

    // The lines with a number that has an electrical unit, or a port's name.
    private HashSet<int> RatingLines() =>
    [
        .. tokens.Where(static token => token.Kind == TokenKind.Cells || token.Term == Term.PortName
            || (token.Kind == TokenKind.Quantity && token.Dimension is not (Dimension.Frequency or Dimension.Ratio)))
            .Select(token => _places[token.Start].Line),
    ];

    private List<Range> UnreadRanges()
    {
        List<Range> spans = [];
        for (int i = 0; i < tokens.Count; i++)
        {
            int end = i;
            while (end < tokens.Count && !_isRead[end] && tokens[end].Kind != TokenKind.Break && (end == i || !tokens[end].IsMoved))
            {
                end++;
            }

            if (end > i)
            {
                spans.Add(tokens[i].Start..tokens[end - 1].End);
                i = end - 1;
            }
        }

        // What stands over the cells of a table is there for each of them; it is read when one of them is.
        HashSet<int> read = [];
        if (tokens.Exists(static token => token.IsMoved))
        {
            read = [.. tokens.Where((_, i) => _isRead[i]).Select(static token => token.Start)];
        }

        // Copies may be unread to a different extent.
        List<Range> apart = [];
        foreach (Range span in spans.Where(span => span.End.Value > span.Start.Value && !read.Contains(span.Start.Value))
            .OrderBy(static span => span.Start.Value))
        {
            if (apart is [.., var last] && span.Start.Value < last.End.Value)
            {
                apart[^1] = last.Start..Math.Max(last.End.Value, span.End.Value);
            }
            else
            {
                apart.Add(span);
            }
        }

        return apart;
    }

    // A guess in one line of a table, or of a rating over several lines, is a guess in all of them.
    private ImmutableHashSet<int> DoubtfulLines(Repair[] repairs)
    {
        HashSet<int> lines = [.. repairs.Where(static repair => repair.Kind == RepairKind.Characters).Select(repair => _places[repair.Start].Line)];
        if (lines.Count > 0)
        {
            (int First, int Last)[] together =
            [
                .. folded.Together.Select(part => (_places[part.Start.Value].Line, _places[part.End.Value - 1].Line)).Order(),
            ];
            foreach ((int first, int last) in together.Concat(Enumerable.Reverse(together)))
            {
                int[] part = [.. Enumerable.Range(first, last - first + 1)];
                if (part.Any(lines.Contains))
                {
                    lines.UnionWith(part);
                }
            }
        }

        return [.. lines];
    }

    // Commas and the like are part of what was read beside them.
    private void MarkSeparators(List<Piece> pieces)
    {
        int left = -1;
        for (int i = 0; i < pieces.Count; i++)
        {
            int run = i;
            while (run < pieces.Count && pieces[run] is SeparatorPiece)
            {
                run++;
            }

            bool isBetweenRead = (left >= 0 && _isRead[pieces[left].End - 1]) || (run < pieces.Count && _isRead[pieces[run].First]);
            if (isBetweenRead)
            {
                MarkRead(pieces.GetRange(i, run - i));
            }

            left = run;
            i = run;
        }
    }

    // A maximum in a header is read by itself: it may contradict another one.
    private void MarkUnread(IEnumerable<Piece> pieces)
    {
        foreach (Piece piece in pieces)
        {
            _isRead.AsSpan(piece.First, piece.End - piece.First).Clear();
        }
    }
}
