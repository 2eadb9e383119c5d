namespace Portwitness.Product.Handling;

/// <summary>The state of a power pack, as "state:" of a product file has it.</summary>
public enum ProductState
{
    /// <summary>Nobody says.</summary>
    NotStated,

    /// <summary>As it was sold.</summary>
    Sealed,

    /// <summary>Its housing is or was open.</summary>
    Opened,

    /// <summary>Its cells have swollen.</summary>
    Swollen,

    /// <summary>It is to be disposed of.</summary>
    ToBeDisposed,
}
