namespace Portwitness.Captures.KernelLog;

/// <summary>What a line of the log looks like from outside: its time, and signs that it is one at all.</summary>
internal static class KernelLogLine
{
    /// <summary>Whether a line, blanks trimmed, speaks for a kernel log, if need be a damaged one.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> line) =>
        TryReadTime(line.TrimStart("> \t|"u8), out _, out _) || MentionsMessages(line) || IsListing(line);

    /// <summary>Reads "[    1.886496] " and finds where the text begins.</summary>
    /// <param name="line">The line.</param>
    /// <param name="microseconds">Time since the kernel started.</param>
    /// <param name="text">Where the text begins; a capability line has one more blank in front.</param>
    public static bool TryReadTime(ReadOnlySpan<byte> line, out long microseconds, out int text)
    {
        (microseconds, text) = (0, 0);
        LogCursor cursor = new(line);
        cursor.Blanks();
        if (!cursor.Literal("["u8))
        {
            return false;
        }

        cursor.Blanks();
        if (!cursor.Number(out int seconds) || !cursor.Literal("."u8))
        {
            return false;
        }

        int fraction = cursor.Position;
        if (!cursor.Number(out int micros) || cursor.Position - fraction != 6 || !cursor.Literal("]"u8))
        {
            return false;
        }

        cursor.Blanks();
        microseconds = (1_000_000L * seconds) + micros;
        text = cursor.Position;
        return true;
    }

    /// <summary>Whether a line speaks of messages as a port log does.</summary>
    public static bool MentionsMessages(ReadOnlySpan<byte> line) =>
        line.IndexOf("PD RX, "u8) >= 0 || line.IndexOf("PD TX, "u8) >= 0 || line.IndexOf("PD TX complete"u8) >= 0
        || line.IndexOf("Rx VDM cmd "u8) >= 0 || line.IndexOf("Requesting PDO "u8) >= 0
        || line.IndexOf("Requesting APDO "u8) >= 0
        || (line.TrimStart("> \t|"u8).StartsWith("PDO "u8) && line.IndexOf(": type "u8) >= 0);

    /// <summary>Whether a line, with or without its time, is that of an object.</summary>
    public static bool IsOfObject(ReadOnlySpan<byte> line)
    {
        line = line.TrimStart("> \t|"u8);
        line = TryReadTime(line, out _, out int start) ? line[start..] : line;
        return line.StartsWith("PDO "u8) && line.IndexOf(": type "u8) >= 0;
    }

    /// <summary>Whether a line is of another system's listing, which counts objects from 1.</summary>
    public static bool IsListing(ReadOnlySpan<byte> line)
    {
        LogCursor cursor = new(line.TrimStart("> \t|"u8));
        if (cursor.Literal("Source_Capabilities: "u8))
        {
            return cursor.Number(out _) && cursor.Literal(" PDO"u8);
        }

        return cursor.Literal("PDO "u8) && cursor.Number(out _) && cursor.Literal(": "u8)
            && !cursor.AtEnd && char.IsAsciiLetterUpper((char)cursor.Rest[0]);
    }
}
