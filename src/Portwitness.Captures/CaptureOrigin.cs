namespace Portwitness.Captures;

/// <summary>Where records come from, as far as it decides what they can show.</summary>
public enum CaptureOrigin
{
    /// <summary>Any other format: a recording of an instrument.</summary>
    Recording,

    /// <summary>The open format, in either form, with nothing said of an earlier one: its header says what is known.</summary>
    OpenFormat,

    /// <summary>A log of the kernel: one side's view, with the times of software.</summary>
    KernelLog,

    /// <summary>Attributes of the kernel: lists, and no conversation.</summary>
    Sysfs,

    /// <summary>Bare words: a list, and no conversation.</summary>
    Words,

    /// <summary>Offers that were typed, off a display for example: a list, and no conversation.</summary>
    Offers,

    /// <summary>A text that quotes lists, perhaps in part, perhaps of several sources: no conversation.</summary>
    Quoted,
}
