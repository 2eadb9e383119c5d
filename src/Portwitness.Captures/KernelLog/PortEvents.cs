namespace Portwitness.Captures.KernelLog;

/// <summary>What became of a line.</summary>
internal enum LineOutcome
{
    /// <summary>It is about something else.</summary>
    Ignored,

    /// <summary>It was read.</summary>
    Used,

    /// <summary>It looks as if it mattered and could not be read; the cursor stands at the place.</summary>
    Unreadable,
}

/// <summary>Finds what happened at the port: attach, detach, VBUS and Rp.</summary>
/// <remarks>
/// Attach and detach are taken from the port's states, not from the CC lines alone: contacts bounce, and only the
/// states show the debounced connection (Type-C R2.x, 4.5.2).
/// </remarks>
internal sealed class PortEvents
{
    /// <summary>Whether something is attached, as far as the log has shown.</summary>
    public bool IsAttached { get; set; }

    /// <summary>What the last line told, in order.</summary>
    public List<(string Name, string? Value)> Found { get; } = [];

    /// <summary>Reads a line.</summary>
    public LineOutcome Read(ref LogCursor cursor)
    {
        Found.Clear();
        if (cursor.Literal("state change "u8))
        {
            return ReadState(ref cursor);
        }

        if (cursor.Literal("VBUS "u8))
        {
            return ReadVbus(ref cursor);
        }

        return cursor.Literal("CC1: "u8) ? ReadCc(ref cursor) : LineOutcome.Ignored;
    }

    private LineOutcome ReadState(ref LogCursor cursor)
    {
        int arrow = cursor.Rest.IndexOf(" -> "u8);
        if (arrow < 0)
        {
            return LineOutcome.Unreadable;
        }

        ReadOnlySpan<byte> state = cursor.Rest[(arrow + 4)..];
        int end = state.IndexOf((byte)' ');
        state = end < 0 ? state : state[..end];
        if (state.SequenceEqual("SNK_ATTACHED"u8) || state.SequenceEqual("SRC_ATTACHED"u8))
        {
            IsAttached = true;
            Found.Add((CaptureEvents.Attach, null));
        }
        else if (IsAttached && (state.SequenceEqual("SNK_UNATTACHED"u8) || state.SequenceEqual("SRC_UNATTACHED"u8)))
        {
            IsAttached = false;
            Found.Add((CaptureEvents.Detach, null));
        }

        return LineOutcome.Used;
    }

    private LineOutcome ReadVbus(ref LogCursor cursor)
    {
        string? name = cursor.Literal("on"u8) ? CaptureEvents.VbusOn
            : cursor.Literal("off"u8) ? CaptureEvents.VbusOff
            : cursor.Literal("VSAFE0V"u8) ? CaptureEvents.VbusSafe0V
            : null;
        if (name is null || !cursor.AtEnd)
        {
            return LineOutcome.Unreadable;
        }

        Found.Add((name, null));
        return LineOutcome.Used;
    }

    private LineOutcome ReadCc(ref LogCursor cursor)
    {
        if (!cursor.Number(out int was1) || !cursor.Literal(" -> "u8) || !cursor.Number(out int is1)
            || !cursor.Literal(", CC2: "u8) || !cursor.Number(out int was2) || !cursor.Literal(" -> "u8)
            || !cursor.Number(out int is2) || !cursor.Literal(" ["u8))
        {
            return LineOutcome.Unreadable;
        }

        AddRp(was1, is1);
        AddRp(was2, is2);
        return LineOutcome.Used;
    }

    private void AddRp(int before, int after)
    {
        string? value = after switch { 3 => "default", 4 => "1.5A", 5 => "3A", _ => null };
        if (value is not null && after != before)
        {
            Found.Add((CaptureEvents.Rp, value));
        }
    }
}
