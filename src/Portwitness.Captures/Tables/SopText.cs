using System.Text;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Tables;

/// <summary>Reads the kind of a message as tables print it: "SOP'", "SOP prime", "Hard Reset".</summary>
internal static class SopText
{
    private static readonly (string Text, SopKind Kind)[] Kinds =
    [
        ("SOP", SopKind.Sop), ("SOP'", SopKind.SopPrime), ("SOP''", SopKind.SopDoublePrime), ("SOP'DEBUG", SopKind.SopPrimeDebug),
        ("SOP''DEBUG", SopKind.SopDoublePrimeDebug),
    ];

    /// <summary>Reads a cell; false when it names neither a kind nor a signal.</summary>
    public static bool TryRead(ReadOnlySpan<byte> cell, out SopKind kind, out SignalKind? signal)
    {
        (kind, signal) = (SopKind.Sop, null);
        if (cell.SequenceEqual("SOP"u8))
        {
            return true;
        }

        if (cell.Length is 0 or > 40)
        {
            return false;
        }

        string text = Encoding.UTF8.GetString(cell).ToUpperInvariant()
            .Replace("\u2032", "'", StringComparison.Ordinal).Replace("\u2019", "'", StringComparison.Ordinal)
            .Replace("\u2033", "''", StringComparison.Ordinal).Replace("\"", "''", StringComparison.Ordinal);
        text = string.Concat(text.Where(letter => letter is not (' ' or '_' or '-')))
            .Replace("DOUBLEPRIME", "''", StringComparison.Ordinal).Replace("PRIME", "'", StringComparison.Ordinal);
        signal = text switch { "HARDRESET" => SignalKind.HardReset, "CABLERESET" => SignalKind.CableReset, _ => null };
        foreach ((string name, SopKind found) in Kinds)
        {
            if (text == name)
            {
                kind = found;
                return true;
            }
        }

        return signal is not null;
    }
}
