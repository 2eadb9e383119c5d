namespace Portwitness.Following.States;

/// <summary>A small set of states. It takes no more than <see cref="Capacity"/>; beyond them anything may be.</summary>
internal sealed class StateSet
{
    /// <summary>States that are kept apart.</summary>
    public const int Capacity = 128;

    private readonly PortState[] _states = new PortState[Capacity];

    /// <summary>How many.</summary>
    public int Count { get; private set; }

    /// <summary>More states are possible than are kept apart.</summary>
    public bool IsOverfull { get; private set; }

    /// <summary>The states.</summary>
    public ReadOnlySpan<PortState> States => _states.AsSpan(0, Count);

    /// <summary>Adds one, unless it is there.</summary>
    public void Add(PortState state)
    {
        if (States.Contains(state))
        {
            return;
        }

        if (Count == Capacity)
        {
            IsOverfull = true;
            return;
        }

        _states[Count++] = state;
    }

    /// <summary>Replaces the only member.</summary>
    public void SetOnly(PortState state)
    {
        _states[0] = state;
        (Count, IsOverfull) = (1, false);
    }

    /// <summary>Empties it.</summary>
    public void Clear() => (Count, IsOverfull) = (0, false);
}
