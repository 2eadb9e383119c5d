using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>A rule about one request and its answer.</summary>
public abstract class RequestRule : Rule
{
    /// <summary>Whether the source is at fault; otherwise the sink is.</summary>
    public abstract bool IsOfSource { get; }

    /// <summary>Looks at a request and reports what breaks this rule.</summary>
    public abstract void Check(in ObservedRequest request, IHitSink hits);
}

/// <summary>A rule that reports one kind of fault of a request: the sink's.</summary>
public abstract class RequestFaultRule : RequestRule
{
    /// <inheritdoc/>
    public sealed override bool IsOfSource => false;

    private protected abstract RequestFaultKind Kind { get; }

    /// <inheritdoc/>
    public sealed override void Check(in ObservedRequest request, IHitSink hits)
    {
        if (RequestCheck.Of(request) is not { } faults)
        {
            return;
        }

        foreach (RequestFault fault in faults)
        {
            if (fault.Kind == Kind)
            {
                hits.Report(this, new Hit(Verdict.Fails, $"The sink {fault.Text}.")
                {
                    Position = request.Request.ObjectPosition,
                    Expected = fault.Expected,
                    Observed = fault.Observed,
                });
            }
        }
    }
}
