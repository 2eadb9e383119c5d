using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Controllers;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A rule about what a port controller's data sheet states.</summary>
public abstract class ControllerRule : Rule
{
    /// <summary>Looks at a controller and its ports, and reports what breaks this rule.</summary>
    public abstract void Check(ControllerUse use, IProductHitSink hits);

    /// <summary>What a controller does not do; it cannot be told where its ports are not stated, or its data sheet leaves it open.</summary>
    private protected static Hit Beyond(ControllerUse use, bool isSure, Phrase detail, Phrase nextStep) => new(
        isSure && use.IsCertain ? Verdict.Fails : Verdict.CannotTell, detail)
    {
        NextStep = isSure && use.IsCertain ? null
            : use.IsCertain ? nextStep
            : Phrase.Of($"State which ports {use.Controller.Name} drives: {{part: {use.Controller.Name}, kind: controller, ports: [{string.Join(", ", use.Ports)}]}}."),
    };
}
