namespace Portwitness.Analysis.Measuring;

/// <summary>VBUS of a port under contract fell below what the contract allows. Times in microseconds from the start of the capture.</summary>
public sealed record Interruption
{
    /// <summary>What VBUS had to be under the contract that was in force.</summary>
    public required VbusTerms? Contract { get; init; }

    /// <summary>The last sample before that was within the contract; null when there was none.</summary>
    public required long? LastGoodUs { get; init; }

    /// <summary>The first sample below.</summary>
    public required long StartUs { get; init; }

    /// <summary>The last sample below.</summary>
    public required long LastBelowUs { get; init; }

    /// <summary>The first sample that was back: within the contract then in force, or at vSafe5V after a reset; null when none was seen.</summary>
    public required long? EndUs { get; init; }

    /// <summary>The lowest VBUS, in mV.</summary>
    public required int DeepestMillivolts { get; init; }

    /// <summary>The Hard Reset before or within it; null without one.</summary>
    public required long? HardResetUs { get; init; }

    /// <summary>The Hard Reset came before VBUS fell: taking VBUS away is then what the source has to do (R3.2v1.1, 6.8.3).</summary>
    public bool AfterHardReset => HardResetUs <= StartUs;

    /// <summary>No more than one sample shows it, which may be a misreading.</summary>
    public bool SingleSample => StartUs == LastBelowUs;

    /// <summary>The load had taken more than the contract allows.</summary>
    public required bool Overloaded { get; init; }
}
