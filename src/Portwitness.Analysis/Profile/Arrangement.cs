using System.Collections.Immutable;

namespace Portwitness.Analysis.Profile;

/// <summary>Which ports are in use, as stated at the start and as attach and detach events change it.</summary>
internal sealed class Arrangement
{
    /// <summary>In attach order; empty when not known.</summary>
    public ImmutableArray<string> InUse { get; private set; } = [];

    /// <summary>What is stated for the start of the capture.</summary>
    public void Begin(ImmutableArray<string> inUse) => InUse = inUse;

    /// <summary>Another port was attached.</summary>
    public void Attach(string port, string capturedPort)
    {
        if (InUse.IsEmpty && capturedPort.Length > 0)
        {
            InUse = [capturedPort];
        }

        if (!InUse.Contains(port))
        {
            InUse = InUse.Add(port);
        }
    }

    /// <summary>Another port was detached.</summary>
    public void Detach(string port) => InUse = InUse.Remove(port);
}
