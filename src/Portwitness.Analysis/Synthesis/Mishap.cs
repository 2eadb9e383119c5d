namespace Portwitness.Analysis.Synthesis;

/// <summary>What goes wrong on purpose, so that readers and rules have something to find.</summary>
internal enum MishapKind
{
    /// <summary>The first N attempts at the step's first message have a wrong CRC.</summary>
    BadCrc,

    /// <summary>The first N attempts at it get no GoodCRC.</summary>
    DropGoodCrc,

    /// <summary>The header of the step's first data or extended message counts one object too many; of seven, one too few.</summary>
    WrongCount,

    /// <summary>Chunk N, and its GoodCRC, are missing from the record.</summary>
    DropChunk,

    /// <summary>Chunk N is sent twice, as two messages.</summary>
    RepeatChunk,
}

/// <summary>One mishap of a step.</summary>
/// <param name="Kind">What goes wrong.</param>
/// <param name="Number">N: how many attempts, or which chunk from 0.</param>
/// <param name="Text">As written.</param>
internal sealed record Mishap(MishapKind Kind, int Number, string Text)
{
    /// <summary>Reads "bad-crc 2", "drop-chunk 1".</summary>
    public static Mishap Read(Words words)
    {
        string name = words.ExpectWord("bad-crc, drop-goodcrc, wrong-count, drop-chunk or repeat-chunk");
        return name.ToLowerInvariant() switch
        {
            "bad-crc" => new Mishap(MishapKind.BadCrc, Attempts(words), name),
            "drop-goodcrc" => new Mishap(MishapKind.DropGoodCrc, Attempts(words), name),
            "wrong-count" => new Mishap(MishapKind.WrongCount, 0, name),
            "drop-chunk" => new Mishap(MishapKind.DropChunk, words.ExpectNumber(9, "a chunk from 0 to 9"), name),
            "repeat-chunk" => new Mishap(MishapKind.RepeatChunk, words.ExpectNumber(9, "a chunk from 0 to 9"), name),
            _ => throw ScriptFault.Value(
                $"\"{name}\" is no mishap; expected bad-crc, drop-goodcrc, wrong-count, drop-chunk or repeat-chunk in \"{words.Text}\""),
        };
    }

    private static int Attempts(Words words) =>
        words.Next is { } next && char.IsAsciiDigit(next[0]) ? words.ExpectNumber(4, "a number of attempts up to 4") : 1;
}
