using Portwitness.Text;

namespace Portwitness.Synthesis;

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

    /// <summary>The step's first message carries the MessageID of its sender's message before.</summary>
    SameId,

    /// <summary>The step's first message is never acknowledged and sent N times more than allowed.</summary>
    ExtraRetries,

    /// <summary>The GoodCRC of the step's first message comes N microseconds after it.</summary>
    LateGoodCrc,

    /// <summary>The GoodCRC of the step's first message carries another MessageID, and the message is sent again.</summary>
    WrongGoodCrc,

    /// <summary>The first attempt gets no GoodCRC, and the second comes N microseconds after it.</summary>
    RetryGap,

    /// <summary>The step's first message comes N microseconds after whatever was sent last. Nothing need be wrong with it.</summary>
    Gap,
}

/// <summary>One mishap of a step.</summary>
/// <param name="Kind">What goes wrong.</param>
/// <param name="Number">N: how many attempts, which chunk from 0, or how many microseconds.</param>
/// <param name="Text">As written.</param>
internal sealed record Mishap(MishapKind Kind, int Number, string Text)
{
    private const string Names =
        "bad-crc, drop-goodcrc, wrong-count, drop-chunk, repeat-chunk, same-id, extra-retries, late-goodcrc, wrong-goodcrc, "
        + "retry-gap or gap";

    /// <summary>Reads "bad-crc 2", "drop-chunk 1", "gap 15ms".</summary>
    public static Mishap Read(ScriptWords words)
    {
        string name = words.ExpectWord(Names);
        return name.ToLowerInvariant() switch
        {
            "bad-crc" => new Mishap(MishapKind.BadCrc, Attempts(words), name),
            "drop-goodcrc" => new Mishap(MishapKind.DropGoodCrc, Attempts(words), name),
            "wrong-count" => new Mishap(MishapKind.WrongCount, 0, name),
            "drop-chunk" => new Mishap(MishapKind.DropChunk, words.ExpectNumber(9, "a chunk from 0 to 9"), name),
            "repeat-chunk" => new Mishap(MishapKind.RepeatChunk, words.ExpectNumber(9, "a chunk from 0 to 9"), name),
            "same-id" => new Mishap(MishapKind.SameId, 0, name),
            "extra-retries" => new Mishap(MishapKind.ExtraRetries, Attempts(words), name),
            "late-goodcrc" => new Mishap(MishapKind.LateGoodCrc, Time(words), name),
            "wrong-goodcrc" => new Mishap(MishapKind.WrongGoodCrc, 0, name),
            "retry-gap" => new Mishap(MishapKind.RetryGap, Time(words), name),
            "gap" => new Mishap(MishapKind.Gap, Time(words), name),
            _ => throw ScriptFault.Value($"\"{name}\" is no mishap; expected {Names} in \"{words.Text}\""),
        };
    }

    private static int Time(ScriptWords words) => words.Expect(
        word => AmountWords.Microseconds(word) is >= 0 and < int.MaxValue and { } us ? (int)us : (int?)null, "a time such as 700us");

    private static int Attempts(ScriptWords words) =>
        words.Next is { } next && char.IsAsciiDigit(next[0]) ? words.ExpectNumber(4, "a number of attempts up to 4") : 1;
}
