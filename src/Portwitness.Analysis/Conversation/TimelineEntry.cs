namespace Portwitness.Analysis.Conversation;

/// <summary>What a line of the timeline is about.</summary>
public enum TimelineKind
{
    /// <summary>A message; its acknowledgement and retries are folded into it.</summary>
    Message,

    /// <summary>A reset signal.</summary>
    Signal,

    /// <summary>Something that happened at the bench.</summary>
    Event,
}

/// <summary>One line of the conversation as a person reads it.</summary>
public sealed record TimelineEntry
{
    /// <summary>What it is about.</summary>
    public TimelineKind Kind { get; internal set; }

    /// <summary>Microseconds from the start of the capture.</summary>
    public long TimeUs { get; internal set; }

    /// <summary>Microseconds since the line before; 0 for the first.</summary>
    public long GapUs { get; internal set; }

    /// <summary>Index of the message, counted from 1; 0 for signals and events.</summary>
    public long MessageIndex { get; internal set; }

    /// <summary>"source → sink", "cable → port" and the like; empty when it is not known.</summary>
    public string Direction { get; internal set; } = "";

    /// <summary>"SOP", "SOP'" ...; empty for events.</summary>
    public string Sop { get; internal set; } = "";

    /// <summary>The message's name, or the signal's or the event's.</summary>
    public string Name { get; internal set; } = "";

    /// <summary>One line.</summary>
    public string Meaning { get; internal set; } = "";

    /// <summary>Whether a GoodCRC followed; null where the capture shows none at all, or none is due.</summary>
    public bool? Acknowledged { get; internal set; }

    /// <summary>How often it was sent again with the same MessageID.</summary>
    public int Retries { get; internal set; }

    /// <summary>How many more times the same came, alone or in turn with the lines beside it.</summary>
    public long Repeats { get; internal set; }

    /// <summary>When it came last.</summary>
    public long LastUs { get; internal set; }
}
