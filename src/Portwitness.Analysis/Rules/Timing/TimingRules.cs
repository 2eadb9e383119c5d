using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>The selected rules about times, by the parameters that they limit.</summary>
internal sealed class TimingRules
{
    private readonly FrozenDictionary<string, LimitedTime> _byParameter;

    public TimingRules(ImmutableArray<TimingRule> rules)
    {
        All = rules;
        _byParameter = rules.SelectMany(static rule => rule.Parameters.Select(name => new LimitedTime(rule, name)))
            .ToFrozenDictionary(static time => time.Parameter);
    }

    /// <summary>The rules, in the order of the catalogue.</summary>
    public ImmutableArray<TimingRule> All { get; }

    /// <summary>What limits a parameter; false where no selected rule does.</summary>
    public bool TryGet(string parameter, [NotNullWhen(true)] out LimitedTime? time) => _byParameter.TryGetValue(parameter, out time);
}

/// <summary>A parameter, and the rule that holds times against it.</summary>
internal sealed class LimitedTime(TimingRule rule, string parameter)
{
    /// <summary>The rule.</summary>
    public TimingRule Rule => rule;

    /// <summary>The parameter's name in the table.</summary>
    public string Parameter => parameter;

    /// <summary>Its rows, one for each edition or group of editions.</summary>
    public TimingLimit[] Rows { get; } = [.. TimingLimits.Of(parameter)];

    /// <summary>An edition allows no less; the strictest, in microseconds.</summary>
    public long Shortest { get; } = TimingLimits.Of(parameter).Max(row => row.MinUs ?? long.MinValue);

    /// <summary>An edition allows no more; the strictest, in microseconds.</summary>
    public long Longest { get; } = TimingLimits.Of(parameter).Min(row => row.MaxUs ?? long.MaxValue);
}
