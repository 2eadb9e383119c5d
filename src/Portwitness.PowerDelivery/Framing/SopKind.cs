namespace Portwitness.PowerDelivery.Framing;

/// <summary>Whom a message is between: the ordered set in front of it (R3.2v1.1, 5.6.1.2).</summary>
public enum SopKind
{
    /// <summary>Port to port.</summary>
    Sop,

    /// <summary>Port to the cable plug at its own end.</summary>
    SopPrime,

    /// <summary>Port to the cable plug at the far end.</summary>
    SopDoublePrime,

    /// <summary>Debug accessories, near plug.</summary>
    SopPrimeDebug,

    /// <summary>Debug accessories, far plug.</summary>
    SopDoublePrimeDebug,
}

/// <summary>The printed names of the SOP kinds.</summary>
public static class SopKinds
{
    private static readonly string[] Names = ["SOP", "SOP'", "SOP''", "SOP'_Debug", "SOP''_Debug"];

    /// <summary>The standard's spelling, for example "SOP'".</summary>
    public static string ToText(this SopKind kind) =>
        (uint)kind < (uint)Names.Length ? Names[(int)kind] : "unknown SOP kind";

    /// <summary>Reads the standard's spelling; false when the text is not one.</summary>
    public static bool TryParse(ReadOnlySpan<char> text, out SopKind kind)
    {
        for (int i = 0; i < Names.Length; i++)
        {
            if (text.SequenceEqual(Names[i]))
            {
                kind = (SopKind)i;
                return true;
            }
        }

        kind = SopKind.Sop;
        return false;
    }
}
